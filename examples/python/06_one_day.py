"""One day: a tote in a stairwell (invented) is asked for its ration, fed, noted, asked again."""

import libfeed

BED = {
    "date": "2026-03-14",
    "container": "60 L tote",
    "worms": "1 lb",
    "temperature": "20 C",
    "squeeze": "drops",
}
today = {
    "libfeed": 1,
    "bed": BED,
    "blend": ["300 g carrot", "50 g bacon", "200 g shredded cardboard"],
}
bin_text = f"libfeed: 1\nbed: {BED}\n"

# What may go in today. All lines, in their order: what must be taken out comes first.
print("\n".join(libfeed.call({"verb": "ration", "file": today})["text"]))

# The plan as it stands, bacon and all, against the bed.
for one in libfeed.call({"verb": "check", "file": today})["hazards"]:
    if one["level"] in ("watch", "act"):
        print(f"the plan: {one['hazard']}, {one['level']}")

# What was done goes into the diary, which is text; the rest of it stays as it was written.
words = "fed 300 g carrot and 17 g shredded cardboard"
noted = libfeed.call({"verb": "note", "file": bin_text, "words": words, "date": "2026-03-14"})
print(f"noted in: {noted['section']}")

# A week ahead, from what went in.
ahead = libfeed.call({"verb": "forecast", "file": noted["file_text"], "days": 8})
print(f"food left after a week: {1000 * ahead['food_left_kg'][7]:.0f} g")

# The day after somebody looks, and the same question has another answer.
seen = libfeed.call(
    {
        "verb": "note",
        "file": noted["file_text"],
        "words": "smell earthy",
        "date": "2026-03-15",
    }
)
print(f"the day after: {libfeed.call({'verb': 'ration', 'file': seen['file_text']})['answer']}")
