#!/usr/bin/python3
"""A push on one rank in surroundings that have little or nothing: it works, or ends with one message and
exit code 5, and never hangs. It starts no MPI, so nothing appears in the folder for temporary files, and
no options of PETSc are read.

    start_runs.py THROUGHBEND FOLDER"""

import os
import resource
import shutil
import signal
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..", "support"))
from cases import PERFECT, case_text  # noqa: E402
from checks import Checks  # noqa: E402
from program import Program, fresh_folder, write  # noqa: E402

program, folder = Program(sys.argv[1]), os.path.abspath(sys.argv[2])
check = Checks(all_told=False)


def push(more=(), env=None, limit=None):
    """With a limit (which, value) of the system."""
    shutil.rmtree("run", ignore_errors=True)

    def set_limit():
        resource.setrlimit(limit[0], (limit[1], limit[1]))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    return program("push", "case.ini", "--into", "run", "--quiet", *more, env=env,
                   preexec_fn=set_limit if limit else None, timeout=60)


fresh_folder(folder)
os.mkdir("temporary")
write("case.ini", case_text("1 mm", material=PERFECT, mesh={"layers": "1", "cell_size": "8 mm"}))
write(".petscrc", "-version\n-log_view\n")

usual = dict(os.environ, TMPDIR=os.path.join(folder, "temporary"), PETSC_OPTIONS="-version")
for dimension in ("2", "3"):
    os.utime("temporary", (1, 1))
    done = push(["--mesh.dimension", dimension], usual)
    check(done.returncode == 0, "%s dimensions: %d %s" % (dimension, done.returncode, done.stderr))
    check(os.stat("temporary").st_mtime == 1, dimension + " dimensions: something was made in TMPDIR")
    check("PETSc" not in done.stdout + done.stderr, "options of PETSc were read: " + done.stdout[:300])
done = push(env={})
check(done.returncode == 0, "an empty environment: %d %s" % (done.returncode, done.stderr))
done = push(env=dict(os.environ, TMPDIR="/nowhere"))
check(done.returncode == 0, "no temporary folder: %d %s" % (done.returncode, done.stderr))

# Memory [kB], file handles, the size of a file [bytes].
for which, name, values in ((resource.RLIMIT_AS, "memory", [n << 10 for n in (200000, 500000, 600000, 650000)]),
                            (resource.RLIMIT_NOFILE, "handles", [4, 5, 6, 8, 12]),
                            (resource.RLIMIT_FSIZE, "file size", [0, 1 << 10, 20 << 10])):
    for value in values:
        what = "%s: %d" % (name, value)
        begun = time.monotonic()
        try:
            done = push(limit=(which, value))
        except subprocess.TimeoutExpired:
            check(False, what + ": hangs")
            continue
        print("%-22s exit code %d, %.1f s: %s" % (what, done.returncode, time.monotonic() - begun,
                                                  done.stderr.strip()[:110].replace("\n", " / ")), flush=True)
        check(done.returncode in (0, 5), "%s: exit code %d: %s" % (what, done.returncode, done.stderr))
        check(done.returncode == 0 or done.stderr.count("throughbend: ") in (1, 2), what + ": " + done.stderr)

# A wish to stop is heeded from the start: before the libraries are there it waits for them.
for delay in (0.02, 0.05, 0.1, 0.2):
    shutil.rmtree("run", ignore_errors=True)
    # Some 6 000 steps: the pass is still going when the wish comes, on any machine.
    live = program.start("push", "case.ini", "--into", "run", "--quiet", "--ram.stroke", "60 mm",
                         "--solver.largest_step", "0.01 mm")
    time.sleep(delay)
    live.send_signal(signal.SIGTERM)
    said = live.communicate(timeout=60)[1]
    check(live.returncode == 4 or live.returncode == -signal.SIGTERM and not os.path.exists("run"),
          "SIGTERM after %.2f s: %d %s" % (delay, live.returncode, said))
    print("SIGTERM after %.2f s: exit code %d" % (delay, live.returncode), flush=True)
check.end()
