# Trial: melon rind against pumpkin (invented), planned and, at its end, read.
cd "$(dirname "$0")/.."
feed trial plan rind_trial.yaml
feed trial read rind_trial_seen.yaml
