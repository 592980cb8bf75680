"""Compares what Tailfirst reads of real scores with what music21 10.5.1 reads: every onset with its
pitches, by part, bar and staff.

    python3 -m venv target/reference
    target/reference/bin/pip install music21==10.5.1
    cargo build --release
    target/reference/bin/python tests/reference/compare.py target/release/tailfirst

The scores come with music21 (its `corpus` and its MusicXML tests) under their own terms and are not part
of this repository; `scores.json` names each with its hash. A difference fails unless `explained.json`
tells it with its reason; an explanation that explains nothing fails too.
"""

import hashlib
import json
import pathlib
import subprocess
import sys
from collections import Counter, defaultdict
from fractions import Fraction

import music21
from music21 import converter, harmony, stream

HERE = pathlib.Path(__file__).parent
PACKAGE = pathlib.Path(music21.__file__).parent
VERSION = "10.5.1"


def sounding(note):
    """Whether a note of music21 begins something that is shown in full size."""
    if note.duration.isGrace or note.style.hideObjectOnPrint or note.style.noteSize == "cue":
        return False
    return note.tie is None or note.tie.type == "start"


def keys(element):
    """The keys that begin at an element: MIDI numbers, -1 for unpitched percussion."""
    notes = element.notes if hasattr(element, "notes") else [element]
    return [note.pitch.midi if hasattr(note, "pitch") else -1 for note in notes if sounding(note)]


def bars_of(staff):
    """Per bar of a staff the keys at every onset."""
    for measure in staff.getElementsByClass(stream.Measure):
        onsets = defaultdict(set)
        for element in measure.recurse().notes:
            if isinstance(element, harmony.Harmony) or element.duration.isGrace:
                continue
            at = Fraction(element.getOffsetInHierarchy(measure)).limit_denominator(10080)
            onsets[at].update(keys(element))
        yield {str(at): sorted(found) for at, found in sorted(onsets.items()) if found}


def reference(path):
    """(part, staff, bar) -> onsets, as music21 has it. A part of several staves is several to it."""
    parts = converter.parse(path, format="musicxml", forceSource=True).parts
    names = [part.id.split("-Staff") for part in parts]
    counted, places = Counter(), []
    for name, *_ in names:
        counted[name] += 1
        places.append((name, counted[name]))
    order = list(dict.fromkeys(name for name, _ in places))
    return {
        (order.index(name), staff, bar): onsets
        for (name, staff), part in zip(places, parts)
        for bar, onsets in enumerate(bars_of(part))
    }


def ours(companion, path):
    """The same, as Tailfirst has it."""
    report = json.loads(subprocess.run([companion, "read", path], check=True, capture_output=True).stdout)
    return {
        (place, int(staff), bar["index"]): {
            onset["onset"]: sorted({note.get("midi", -1) for note in onset["notes"]}) for onset in onsets
        }
        for place, part in enumerate(report["parts"])
        for bar in part["bars"]
        for staff, onsets in bar["staves"].items()
    }


def differences(theirs, own):
    """Places where the two do not agree, as `part:staff:bar`; empty bars need no counterpart."""
    places = sorted(set(theirs) | set(own))
    return [place for place in places if theirs.get(place, {}) != own.get(place, {})]


def compare(companion, name, digest, explained):
    path = PACKAGE / name
    if hashlib.sha256(path.read_bytes()).hexdigest() != digest:
        sys.exit(f"{name} is not the file that was compared")
    theirs, own = reference(path), ours(companion, path)
    found = differences(theirs, own)
    told = {tuple(place): told["why"] for told in explained for place in told["places"]}
    unexplained = [place for place in found if place not in told]
    idle = [place for place in told if place not in found]
    for place in unexplained:
        print(f"{name} part {place[0]} staff {place[1]} bar {place[2]}:")
        print(f"  music21   {theirs.get(place)}\n  Tailfirst {own.get(place)}")
    for place in idle:
        print(f"{name} {place}: explained, but there is no difference")
    counts = Counter(
        bars=len({(part, bar) for part, _, bar in own}),
        staff_bars=len(own),
        onsets=sum(len(onsets) for onsets in own.values()),
        notes=sum(len(keys) for onsets in own.values() for keys in onsets.values()),
        explained=len(found) - len(unexplained),
        failures=len(unexplained) + len(idle),
        scores=1,
    )
    return counts


def main():
    companion = sys.argv[1]
    if music21.VERSION_STR != VERSION:
        sys.exit(f"this is music21 {music21.VERSION_STR}; the comparison is with {VERSION}")
    scores = json.loads((HERE / "scores.json").read_text())
    explained = json.loads((HERE / "explained.json").read_text())
    total = Counter()
    for name, digest in scores.items():
        counts = compare(companion, name, digest, explained.get(name, []))
        total += counts
        print(f"{name}: {dict(counts)}", flush=True)
    print(", ".join(f"{count} {what}" for what, count in total.items()))
    sys.exit(1 if total["failures"] or total["scores"] < 40 else 0)


if __name__ == "__main__":
    main()
