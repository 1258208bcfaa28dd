"""What holds and what does not, in tests that are programs of their own."""

import sys


class Checks:
    """check(holds, what) prints `what` where it does not hold, and with `all_told` also where it does. end()
    tells how many failed, and ends the program with 1 if any did."""

    def __init__(self, all_told=True):
        self.all_told = all_told
        self.done = 0
        self.failures = []

    def __call__(self, holds, what):
        self.done += 1
        if not holds:
            self.failures.append(what)
            print("FAILED  " + what, flush=True)
        elif self.all_told:
            print("ok      " + what, flush=True)

    def end(self):
        print("%d checked, %d failed" % (self.done, len(self.failures)))
        sys.exit(1 if self.failures or not self.done else 0)
