"""What .ci/completions types in real shells, each in a terminal of its own."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import sys
import termios
import time

work = sys.argv[1]
scripts = f"{work}/scripts"

SHELLS = {
    "bash": (["bash", "--norc", "-i"], f"source {scripts}/untaught.bash; bind 'set bell-style none'; bind 'set enable-bracketed-paste off'; bind 'set show-all-if-ambiguous on'"),
    "zsh": (["zsh", "-f", "-i"], f"fpath=({scripts} $fpath); autoload -Uz compinit; compinit -u; unsetopt beep; LISTMAX=999; unset zle_bracketed_paste"),
    "fish": (["fish", "--no-config", "-i"], f"source {scripts}/untaught.fish"),
    "elvish": (["elvish", "-norc"], f"eval (slurp < {scripts}/untaught.elvish)"),
}

# What is typed before the tab key, and what is on the screen after it.
CASES = [
    ("untaught check --scope dol", ["dolch"], []),
    ("untaught check -s ", ["starter", "england-years-1-2", "scopes/"], ["story.txt"]),
    ("untaught check -s scopes/", ["scopes/first.yaml"], []),
    ("untaught check --scope dolch --lesson ", ["pre-primer", "grade-2"], ["harbour"]),
    ("untaught check -s dolch -l gr", ["grade-1", "grade-2"], ["primer"]),
    ("untaught words --lesson ", ["harbour", "hill"], ["primer"]),
    ("untaught check --scope=scopes/first.yaml --lesson=har", ["harbour"], []),
    ("untaught scope eng", ["england-years-1-2"], []),
    ("untaught init --scope ", ["starter", "dolch"], ["scopes/"]),
    ("untaught check --min-r", ["--min-readable"], []),
    ("untaught check sto", ["story.txt"], []),
    ("untaught pla", ["place"], []),
]
# The script for Elvish knows commands and options, not values.
CASES_OF = {"elvish": [case for case in CASES if case[1][0] in ("--min-readable", "place")]}


class Terminal:
    def __init__(self, command, setup):
        self.child, self.end = pty.fork()
        if self.child == 0:
            os.chdir(f"{work}/stories")
            os.environ.update(TERM="xterm" if command[0] in ("fish", "elvish") else "dumb", PS1="> ", COLUMNS="200", LINES="60")
            os.execvp(command[0], command)
        fcntl.ioctl(self.end, termios.TIOCSWINSZ, struct.pack("HHHH", 60, 200, 0, 0))
        self.read(1.5)
        self.type(f"{setup}\r")
        self.read(1.5)

    def type(self, text):
        os.write(self.end, text.encode())

    def read(self, patience):
        """Everything that is written until nothing has been for a while."""
        out = b""
        end = time.monotonic() + patience
        while time.monotonic() < end:
            if select.select([self.end], [], [], 0.05)[0]:
                out += os.read(self.end, 65536)
                end = max(end, time.monotonic() + 0.3)
        return re.sub(r"\x1b\[[0-9;?]*[A-Za-z]|\x1b[()=>][0-9A-Z]?", "", out.decode(errors="replace"))

    def close(self):
        os.kill(self.child, signal.SIGKILL)
        os.close(self.end)
        os.waitpid(self.child, 0)


passed = failed = 0
for shell, (command, setup) in SHELLS.items():
    terminal = Terminal(command, setup)
    for typed, there, absent in CASES_OF.get(shell, CASES):
        terminal.type(typed)
        terminal.read(0.3)
        terminal.type("\t")
        screen = terminal.read(0.8)

        # What was typed is completed where it is: a beginning, and the rest that is added to it.
        def missing():
            return [part for part in there if part not in screen and part not in typed + screen]

        if missing():
            terminal.type("\t")
            screen += terminal.read(0.8)
        unwanted = [part for part in absent if part in screen]
        if missing() or unwanted:
            failed += 1
            print(f"{shell}: {typed!r}: missing {missing()}, unwanted {unwanted}: {screen!r}")
        else:
            passed += 1
        # To the end of the line, and all of it away.
        terminal.type("\x05\x15")
        terminal.read(0.2)
        terminal.type("\x03")
        terminal.read(0.2)
    terminal.close()
print(f"Completions: {passed} passed, {failed} failed")
sys.exit(failed > 0)
