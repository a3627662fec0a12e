"""feed blend: numbers that can be worked out on paper."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from command import answer, call, write

TWO = {
    "feedstocks": {
        "dry half": {"moisture": "50 %", "carbon": "40 %", "nitrogen": "2 %"},
        "wet half": {"moisture": "80 %", "carbon": "50 %", "nitrogen": "1 %"},
    },
    "blend": ["1 kg dry half", "1 kg wet half"],
}
KEYS = {
    "wet_mass_kg", "dry_mass_kg", "water_kg", "moisture", "cn_ratio", "available_cn_ratio",
    "carbon_kg", "nitrogen_kg", "volume_l", "bulk_density_kg_m3", "free_air_space",
    "acid_g_citric", "salt_g", "fat_kg", "volatile_solids_kg", "cautions", "portions",
    "assumed", "unknown",
}  # fmt: skip


def test_sums_by_hand(feed_command: Path, tmp_path: Path) -> None:
    ours = answer(feed_command, "blend", write(tmp_path, TWO))
    # Water 0.5 + 0.8 of 2 kg; carbon 0.5 x 0.4 + 0.2 x 0.5; nitrogen 0.5 x 0.02 + 0.2 x 0.01.
    assert ours["wet_mass_kg"] == 2
    assert ours["moisture"]["value"] == pytest.approx(0.65, rel=1e-12)
    assert ours["carbon_kg"]["value"] == pytest.approx(0.30, rel=1e-12)
    assert ours["nitrogen_kg"]["value"] == pytest.approx(0.012, rel=1e-12)
    # Total carbon over total nitrogen; the mean of the two ratios (20 and 50) would be 35.
    assert ours["cn_ratio"]["value"] == pytest.approx(25.0, rel=1e-12)
    assert ours["moisture"]["low"] <= 0.65 <= ours["moisture"]["high"]


def test_keys_and_unknowns(feed_command: Path, tmp_path: Path) -> None:
    ours = answer(feed_command, "blend", write(tmp_path, TWO))
    assert set(ours) >= KEYS
    assert ours["salt_g"] is None and "salt_g" in ours["unknown"]
    for key in ours["unknown"]:
        assert ours[key] is None
    assert [one["feedstock"] for one in ours["portions"]] == ["dry-half", "wet-half"]


def test_file_json_and_command_line_agree(feed_command: Path, tmp_path: Path) -> None:
    entries = ["1.2 kg coffee grounds", "6 piece apple core", "3 L shredded office paper"]
    path = write(tmp_path, {"blend": entries})
    as_yaml = tmp_path / "file.yaml"
    as_yaml.write_text(yaml.safe_dump({"libfeed": 1, "blend": entries}, sort_keys=False), "utf-8")
    texts = {
        call(feed_command, "blend", *words, "--json").stdout
        for words in ([path], [as_yaml], entries)
    }
    assert len(texts) == 1


def test_units_of_people(feed_command: Path) -> None:
    entries = ["1 lb coffee grounds", "1 gallon shredded office paper"]
    metric = call(feed_command, "blend", *entries).stdout
    us = call(feed_command, "blend", *entries, "--units", "us").stdout
    assert "coffee grounds, 450 g." in metric
    assert "coffee grounds, 1 lb." in us
    assert "shredded office paper, 1 US gallon" in us


def test_text_says_of_what_the_ratio_is(feed_command: Path) -> None:
    said = call(feed_command, "blend", "1 kg carrot").stdout
    assert re.search(r"carbon to nitrogen is \d+:1 by mass", said)
    text = call(feed_command, "blend", "1 kg carrot", "--why").stdout
    assert "How sure: " in text and "how sure\n" in text and "judged" in text
    assert all(len(line) <= 80 for line in text.splitlines())
