# One day: a tote in a stairwell (invented) is asked for its ration, checked, fed, noted, asked again.
tote=$(mktemp -d)/tote.yaml
cat >"$tote" <<'END'
libfeed: 1
bed: {date: 2026-03-14, container: 60 L tote, worms: 1 lb, temperature: 20 C, squeeze: drops}
END
feed ration "$tote" 300 g carrot, 50 g bacon and 200 g shredded cardboard --date 2026-03-14
feed check "$tote" 300 g carrot, 50 g bacon and 200 g shredded cardboard --date 2026-03-14
feed note "$tote" fed 300 g carrot and 17 g shredded cardboard --date 2026-03-14
feed forecast "$tote" --days 8 --date 2026-03-14
feed note "$tote" smell earthy --date 2026-03-15
feed ration "$tote" --date 2026-03-15
rm -r "$(dirname "$tote")"
