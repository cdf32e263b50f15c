"""The command that comes with the package."""

import signal
import subprocess
import sys
import time

from conftest import INSTALLED, READERS

import untaught


def run(*arguments: str, stdin: bytes = b"") -> "subprocess.CompletedProcess[bytes]":
    return subprocess.run([str(INSTALLED), *arguments], input=stdin, capture_output=True)


def test_the_command_is_installed_and_ends_with_its_exit_codes() -> None:
    assert run("--version").stdout.decode() .startswith(f"untaught {untaught.__version__}")
    for arguments, stdin, code in [
        (["check", "--lesson", "9"], b"Tam sat.", 0),
        (["check", "--lesson", "9"], b"night", 1),
        (["check", "no-such-file.txt"], b"", 2),
        (["chekc"], b"", 2),
        (["--help"], b"", 0),
    ]:
        assert run(*arguments, stdin=stdin).returncode == code, arguments
    module = subprocess.run([sys.executable, "-m", "untaught", "check", "-l", "9"], input=b"night", capture_output=True)
    assert (module.returncode, module.stdout) == (1, run("check", "-l", "9", stdin=b"night").stdout)


def test_everything_is_written_and_a_closed_pipe_is_success() -> None:
    report = run("check", "--format", "json", "--every-word", *map(str, READERS)).stdout
    assert report.startswith(b'{"format":1') and report.rstrip().endswith(b"}")
    command = [str(INSTALLED), "check", "--every-word", "--format", "json", "--lesson", "3", *map(str, READERS * 50)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout is not None and process.stderr is not None
        assert process.stdout.read(100).startswith(b'{"format":1')
        process.stdout.close()
        assert process.stderr.read() == b""
    assert process.returncode == 0


def test_an_interrupt_ends_it() -> None:
    with subprocess.Popen([str(INSTALLED), "check", "-f", "jsonl"], stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdin is not None and process.stdout is not None
        process.stdin.write(b'{"text": "Tam"}\n')
        process.stdin.flush()
        # It works, and waits for more.
        assert process.stdout.readline().startswith(b'{"format":1')
        process.send_signal(signal.SIGINT)
        started = time.monotonic()
        process.wait(timeout=20)
        assert time.monotonic() - started < 20
    assert process.returncode == -signal.SIGINT


def test_a_long_call_can_be_interrupted() -> None:
    program = (
        "import signal, untaught\n"
        # A program that is started in the background may have been told to ignore it.
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "scope = untaught.Scope.builtin()\n"
        "texts = ['The knight sat in the light of the moon. ' * 50] * 300_000\n"
        "print('ready', flush=True)\n"
        "try:\n"
        "    untaught.check_many(texts, scope, 9)\n"
        "    print('all of them')\n"
        "except KeyboardInterrupt:\n"
        "    print('interrupted')\n"
    )
    with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        time.sleep(0.5)
        process.send_signal(signal.SIGINT)
        assert process.stdout.read() == "interrupted\n"
