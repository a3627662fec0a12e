# Blend: a cafe (invented) keeps worms in stacked trays and feeds them grounds with torn boxes.
feed blend --why "2 kg coffee grounds" "500 g shredded cardboard"
