"""The likelihood of the time model against survreg (R package survival), to 1e-4."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

# Effects of four stools on nine people against the first: Pinheiro & Bates 2000, Mixed-Effects
# Models in S and S-PLUS, section 1.2.
PRINTED = {(4, 9): [3.888889, 2.222222, 0.666667]}


def test_likelihood_peak_is_that_of_survreg(build_dir: Path, source_dir: Path) -> None:
    """Effects and spread; the values are committed with the script that made them."""
    text = (source_dir / "tests" / "oracle" / "trial_survreg.json").read_text(encoding="utf-8")
    program = build_dir / "tests" / "oracle" / "oracle_trial_cases"
    cases = [json.loads(line) for line in text.splitlines()]
    assert len(cases) == 12  # six invented sets, then six published ones
    for case in cases:
        rows = "\n".join(
            f"{low} {-1 if high is None else high} {feed} {block}"
            for low, high, feed, block in case["plots"]
        )
        command = [str(program), "likelihood", str(case["feeds"]), str(case["blocks"])]
        out = subprocess.run(command, input=rows, check=True, capture_output=True, text=True)
        spread, *effects = map(float, out.stdout.split())
        assert spread == pytest.approx(case["scale"], abs=1e-4)
        assert effects == pytest.approx(case["effects"], abs=1e-4)
        printed = PRINTED.get((case["feeds"], case["blocks"]), effects)
        assert effects == pytest.approx(printed, abs=5e-7)


@pytest.mark.skipif(shutil.which("Rscript") is None, reason="R is not installed")
def test_committed_values_are_what_the_script_prints(source_dir: Path) -> None:
    """Rerun where R and the packages with the data are there."""
    script = source_dir / "tests" / "oracle" / "trial_survreg.R"
    run = subprocess.run(["Rscript", script], check=False, capture_output=True, text=True)
    if run.returncode != 0 and "there is no package called" in run.stderr:
        pytest.skip("an R package that the script needs is not installed")
    # After the last line the script compares two printings of one set.
    assert run.returncode == 0, run.stderr
    committed = script.with_suffix(".json").read_text(encoding="utf-8").splitlines()
    for now, then in zip(run.stdout.splitlines(), committed, strict=True):
        fresh, kept = json.loads(now), json.loads(then)
        assert fresh["plots"] == kept["plots"]
        assert fresh["effects"] == pytest.approx(kept["effects"], abs=1e-8)
        assert fresh["scale"] == pytest.approx(kept["scale"], abs=1e-8)
