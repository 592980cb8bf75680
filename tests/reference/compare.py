"""Compares what Tailfirst reads of real scores with what music21 10.5.1 reads: every onset with its
pitches, by part, bar and staff.

    python3 -m venv target/reference
    target/reference/bin/pip install music21==10.5.1
    cargo build --release
    target/reference/bin/python tests/reference/compare.py target/release/tailfirst

The scores come with music21 (its corpus and the MusicXML test suite it carries) under their own terms and
are no part of this repository; `scores.json` names each with its SHA-256. Parts, bars and staves are
counted as in the file, part and bar from 0, staff from 1. Two kinds of difference are recognised and
verified here, in `is_rounded` and `across_staves`; every other one fails unless `explained.json` gives
its place and reason, and a reason for what does not differ fails, too. Grace notes, cue notes and hidden
notes are not compared.
"""

import hashlib
import json
import pathlib
import subprocess
import sys
import warnings
import zipfile
from collections import Counter, defaultdict
from fractions import Fraction
from xml.etree import ElementTree

import music21
from music21 import converter, harmony, stream

HERE = pathlib.Path(__file__).parent
PACKAGE = pathlib.Path(music21.__file__).parent
VERSION = "10.5.1"
warnings.simplefilter("ignore")


def is_shown(note):
    """Whether a note of music21 is printed in full size and takes time."""
    return not (note.duration.isGrace or note.style.hideObjectOnPrint or note.style.noteSize == "cue")


def notes_of(measure):
    """(onset, key, whether it begins there) of every note: -1 for unpitched percussion."""
    for element in measure.recurse().notes:
        if isinstance(element, harmony.Harmony) or not is_shown(element):
            continue
        at = Fraction(element.getOffsetInHierarchy(measure)).limit_denominator(10080)
        for note in element.notes if hasattr(element, "notes") else [element]:
            if is_shown(note):
                begins = note.tie is None or note.tie.type not in ("stop", "continue")
                yield str(at), note.pitch.midi if hasattr(note, "pitch") else -1, begins


def bar_of(measure):
    """Onset -> keys that begin there, lowest first."""
    onsets = defaultdict(set)
    for at, key, begins in notes_of(measure):
        if begins:
            onsets[at].add(key)
    return {at: sorted(onsets[at]) for at in sorted(onsets, key=Fraction)}


def reference(path):
    """(part, staff, bar) -> onsets, as music21 has it. A part of several staves is several to it."""
    place, staff, found = -1, 1, {}
    for part in converter.parse(path, format="musicxml", forceSource=True).parts:
        further = isinstance(part, stream.PartStaff) and not str(part.id).endswith("-Staff1")
        place, staff = (place, staff + 1) if further else (place + 1, 1)
        for bar, measure in enumerate(part.getElementsByClass(stream.Measure)):
            found[place, staff, bar] = bar_of(measure)
    return found


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
    """Places where the two do not agree; a staff that is empty in one may be absent in the other."""
    places = sorted(set(theirs) | set(own))
    return [place for place in places if theirs.get(place, {}) != own.get(place, {})]


def is_rounded(theirs, own):
    """Whether the same keys begin in the same order, apart by what a file's rounding of tuplets makes:
    music21 counts on in the file's numbers, Tailfirst takes the exact length of the shape."""
    close = all(abs(Fraction(a) - Fraction(b)) < Fraction(1, 96) for a, b in zip(theirs, own))
    return close and list(theirs.values()) == list(own.values())


def across_staves(measures, place):
    """Whether a chord of the bar has notes on several staves: music21 keeps it on the staff of one of
    them, Tailfirst leaves every note on its own."""
    part, _, bar = place
    staff = None
    for note in measures[part][bar].iter("note"):
        before, staff = staff, note.findtext("staff", "1")
        if note.find("chord") is not None and before != staff:
            return True
    return False


def on_all_staves(bars, place):
    """The keys at every onset of a bar, whatever their staff."""
    part, _, bar = place
    onsets = defaultdict(set)
    for (other_part, _, other_bar), found in bars.items():
        if (other_part, other_bar) == (part, bar):
            for at, keys in found.items():
                onsets[at].update(keys)
    return onsets


def measures_of(path):
    """The measures of every part, as plain XML."""
    text = path.read_bytes()
    if zipfile.is_zipfile(path):
        with zipfile.ZipFile(path) as packed:
            name = next(name for name in packed.namelist() if not name.startswith("META-INF") and "xml" in name)
            text = packed.read(name)
    return [part.findall("measure") for part in ElementTree.fromstring(text).findall("part")]


def compare(companion, name, digest, told):
    """What was compared and what differs; `told` maps places to their reasons."""
    path = PACKAGE / name
    if hashlib.sha256(path.read_bytes()).hexdigest() != digest:
        sys.exit(f"{name} is not the file that was compared")
    theirs, own, measures = reference(path), ours(companion, path), measures_of(path)
    counts = Counter(
        scores=1,
        bars=len({(part, bar) for part, _, bar in own}),
        onsets=sum(len(onsets) for onsets in own.values()),
        notes=sum(len(keys) for onsets in own.values() for keys in onsets.values()),
    )
    found = differences(theirs, own)
    for place in found:
        if place in told:
            counts["told"] += 1
        elif is_rounded(theirs.get(place, {}), own.get(place, {})):
            counts["rounded"] += 1
        elif across_staves(measures, place) and on_all_staves(theirs, place) == on_all_staves(own, place):
            counts["across staves"] += 1
        else:
            counts["unexplained"] += 1
            print(f"  {place}\n    music21   {theirs.get(place)}\n    Tailfirst {own.get(place)}")
    for place in set(told) - set(found):
        counts["explained in vain"] += 1
        print(f"  {place}: explained, but there is no difference")
    return counts


def places(entries):
    return {(entry["part"], entry["staff"], bar): entry["why"] for entry in entries for bar in entry["bars"]}


def main():
    companion = sys.argv[1]
    if music21.VERSION_STR != VERSION:
        sys.exit(f"this is music21 {music21.VERSION_STR}; the comparison is with {VERSION}")
    scores = json.loads((HERE / "scores.json").read_text())
    explained = json.loads((HERE / "explained.json").read_text())
    total = Counter()
    for name, digest in scores.items():
        counts = compare(companion, name, digest, places(explained.get(name, [])))
        total += counts
        print(f"{name}: {', '.join(f'{count} {what}' for what, count in counts.items())}", flush=True)
    print(f"In all: {', '.join(f'{count} {what}' for what, count in total.items())}")
    sys.exit(1 if total["unexplained"] or total["explained in vain"] or total["scores"] < 40 else 0)


if __name__ == "__main__":
    main()
