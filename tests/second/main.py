"""`main.py check`: answers computed anew against those in the tree. `main.py write`: answers anew. `main.py make`: frames anew too."""
import os
import sys
from pathlib import Path

# Small matrices: more threads only wait for each other.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import eigen
import exact
import make

HERE = Path(__file__).resolve().parent
FRAMES = HERE / "frames"
EXACT = HERE.parents[1] / "crates" / "strutwork-element" / "tests" / "exact"
# Computed anew on another machine, with other versions of the libraries.
SAME = 2e-11


def answers(folder):
    how = (folder / "expected" / "how.csv").read_text().splitlines()[1].split(",")
    return eigen.answers(folder, int(how[0]), how[1] == "yes")


def table(found):
    lines = [f"{kind},{case},{place},{float(value)!r}" for kind, case, place, value in found]
    return "\n".join(["kind,case,place,value"] + lines) + "\n"


def differs(known, found):
    """The first line that is not the same, or nothing."""
    known = [line.rsplit(",", 1) for line in known.splitlines()[1:]]
    found = [line.rsplit(",", 1) for line in found.splitlines()[1:]]
    if [key for key, _ in known] != [key for key, _ in found]:
        return "other rows"
    for (key, a), (_, b) in zip(known, found):
        if abs(float(a) - float(b)) > SAME * abs(float(b)):
            return f"{key}: {a} in the tree, {b} now"
    return None


def main(word):
    if word == "make":
        make.all_folders(FRAMES)
    wrong = []
    folders = sorted(path for path in FRAMES.iterdir() if path.is_dir())
    files = {path / "expected" / "eigen.csv": table(answers(path)) for path in folders}
    files |= {EXACT / name: text for name, text in exact.tables().items()}
    for file, text in files.items():
        if word != "check":
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text(text, encoding="utf-8")
        elif not file.exists():
            wrong.append(f"{file}: missing")
        elif fault := differs(file.read_text(encoding="utf-8"), text):
            wrong.append(f"{file}: {fault}")
    for fault in wrong:
        print(fault, file=sys.stderr)
    print(f"{len(files)} files, {sum(text.count(chr(10)) - 1 for text in files.values())} values: {'differ' if wrong else 'agree'}")
    return 1 if wrong else 0


if __name__ == "__main__":
    if sys.argv[1:] not in (["check"], ["write"], ["make"]):
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1]))
