"""Makes hostile files, and runs the command on them: hostile.py make FOLDER [PART-OF-A-NAME]… | hostile.py run FOLDER UNTAUGHT"""

import json
import os
import resource
import subprocess
import sys
from pathlib import Path

CPU = 5  # seconds: a slow computer that does other work too
MEMORY = 300  # MB
PATIENCE = 60  # seconds by the clock
ADDRESSES = 3 << 30  # what no run gets beyond, so that a failure harms nobody


def make(folder, chosen):
    from hostile_cases import CASES, PIPE

    plan = []
    for number, (name, args, files, codes, says, stdin, allowed) in enumerate(CASES):
        if chosen and not any(part in name for part in chosen):
            continue
        place = folder / str(number)
        place.mkdir()
        for file, text in files.items():
            if text == PIPE:
                os.mkfifo(place / file)
            else:
                text = text()
                (place / file).write_bytes(text if isinstance(text, bytes) else text.encode())
        plan.append((name, args, str(place), codes, says, stdin, allowed))
    (folder / "plan.json").write_text(json.dumps(plan))


def run(folder, untaught):
    failed = 0
    plan = json.loads((folder / "plan.json").read_text())
    print(f"{'case':<66} {'CPU s':>6} {'MB':>4} {'code':>4}  first line")
    for name, args, place, codes, says, stdin, allowed in plan:
        code, used, said = ended([untaught, *args], place, stdin, allowed.get("cpu", CPU))
        cpu, memory = used.ru_utime + used.ru_stime, used.ru_maxrss / 1000
        lines = said.splitlines() or [""]
        wrong = [
            what
            for what, is_wrong in {
                "CPU time": cpu > allowed.get("cpu", CPU),
                "memory": memory > allowed.get("memory", MEMORY),
                f"the exit code is not {codes}": code not in codes,
                "no sentence": code == 2 and not said.startswith("untaught: "),
                f"does not say {says!r}": says not in said,
                "panic": "panicked" in said,
                "a long line": max(map(len, lines)) > 1_100,
                "many lines": len(lines) > 23 and not name.startswith("folder: "),
            }.items()
            if is_wrong
        ]
        failed += bool(wrong)
        # What is wrong with a file stands on the line after.
        shown = lines[1] if lines[0].endswith(" cannot be used") else lines[0].removeprefix("untaught: ")
        shown += f" … {lines[-1]}" if len(lines) > 2 and lines[-1].startswith("and ") else ""
        print(f"{name:<66.66} {cpu:6.2f} {memory:4.0f} {code:>4}  {shown[:140]}{'   <-- ' * bool(wrong)}{'; '.join(wrong)}", flush=True)
    print(f"{len(plan)} cases, {failed} failed")
    return failed > 0


def ended(command, place, stdin, cpu):
    """Runs a command to its end: its exit code, what it used and what it said on standard error."""

    def limits():
        resource.setrlimit(resource.RLIMIT_CPU, (cpu, cpu + 1))
        resource.setrlimit(resource.RLIMIT_AS, (ADDRESSES, ADDRESSES))

    with open(os.path.join(place, stdin) if stdin else os.devnull, "rb") as given, open(f"{place}.err", "wb+") as err:
        child = subprocess.Popen(command, cwd=place, stdin=given, stdout=subprocess.DEVNULL, stderr=err, preexec_fn=limits)
        timer = subprocess.Popen(["sleep", str(PATIENCE)], stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
        while True:
            pid, status, used = os.wait3(0)
            if pid == child.pid:
                break
            child.kill()  # it has hung for as long as the timer ran
        timer.kill()
        err.seek(0)
        said = err.read(20_000_000).decode(errors="replace")
    if pid == child.pid and timer.poll() is None:
        timer.wait()
    return os.waitstatus_to_exitcode(status), used, said


if __name__ == "__main__":
    if sys.argv[1] == "make":
        make(Path(sys.argv[2]), sys.argv[3:])
    else:
        sys.exit(run(Path(sys.argv[2]), sys.argv[3]))
