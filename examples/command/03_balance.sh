# Balance: a school lunch club (invented) has scraps that must go, and cardboard and water at will.
feed balance "$(dirname "$0")/../lunch_club.yaml"
