"""The real program, the folders in which tests run it, and the files that it leaves there."""

import contextlib
import json
import os
import shutil
import subprocess
import tempfile


class Program:
    """program(words...) runs it and returns the finished process: returncode, stdout and stderr as text."""

    def __init__(self, path):
        self.path = os.path.abspath(path)

    def __call__(self, *words, launcher=(), **more):
        """`launcher`: words before the program's own, such as those of mpiexec."""
        return subprocess.run([*launcher, self.path, *words], capture_output=True, text=True, errors="replace",
                              **more)

    def start(self, *words, launcher=(), **more):
        """Runs it beside the test; what it says on stderr can be read."""
        streams = dict({"stdout": subprocess.DEVNULL, "stderr": subprocess.PIPE}, **more)
        return subprocess.Popen([*launcher, self.path, *words], text=True, **streams)


def fresh_folder(path):
    """Empties it or makes it, and goes there."""
    shutil.rmtree(path, ignore_errors=True)
    os.makedirs(path)
    os.chdir(path)


@contextlib.contextmanager
def kept_folder(words, name):
    """The folder that `words` names, for looking at; without one a temporary folder, which goes with the test."""
    if words:
        os.makedirs(words[0], exist_ok=True)
        yield os.path.abspath(words[0])
        return
    with tempfile.TemporaryDirectory(prefix="throughbend-%s-" % name, ignore_cleanup_errors=True) as folder:
        yield folder


def content(*path):
    """The text of a file."""
    with open(os.path.join(*path), encoding="utf-8") as file:
        return file.read()


def write(path, text):
    with open(path, "w", encoding="utf-8") as file:
        file.write(text)


def told(run):
    """run.json of a run folder."""
    return json.loads(content(run, "run.json"))
