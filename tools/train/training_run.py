"""What every training here shares: the average of the weights, the rate's course, and the record of a run.

A training ends after a number of steps, never by the clock, so that the same command asks for the same work on any
machine. Whatever fails ends it with an error: half a run must not pass for a whole one.
"""

import hashlib
import json
import math
import pathlib
import sys
import time

import torch


class Average:
    """An exponential moving average of a network's weights and norms; short at first, then long."""

    def __init__(self, net, decay):
        self.net, self.decay, self.steps = net, decay, 0

    @torch.no_grad()
    def update(self, net):
        self.steps += 1
        keep = min(self.decay, (1 + self.steps) / (10 + self.steps))
        mine = [t for t in self.net.state_dict().values() if t.is_floating_point()]
        its = [t for t in net.state_dict().values() if t.is_floating_point()]
        torch._foreach_mul_(mine, keep)
        torch._foreach_add_(mine, its, alpha=1 - keep)


def learning_rate(progress, peak):
    """Warms up over three hundredths of the steps, then falls along a cosine."""
    warm = 0.03
    if progress < warm:
        return peak * (0.02 + 0.98 * progress / warm)
    return peak * (0.5 + 0.5 * math.cos(math.pi * min(1.0, (progress - warm) / (1 - warm)))) + 1e-6


def wait_for_samples(pool, feeder, least, patience_s=300):
    """Returns when `pool` holds `least` samples; raises when for so long no new one comes, or when reading failed."""
    began = came = time.monotonic()
    known = pool.count
    while pool.count < least:
        feeder.check()
        if pool.count > known:
            known, came = pool.count, time.monotonic()
        if time.monotonic() - came > patience_s:
            raise TimeoutError(f"{pool.count} samples, {least} asked for, and no other in {patience_s} s: does the rendering run?")
        time.sleep(0.5)
    print(f"{time.monotonic() - began:.0f} s: {pool.count} samples are there", flush=True)


def sha256_of(path):
    return hashlib.sha256(pathlib.Path(path).read_bytes()).hexdigest()


def write_record(out, args, started_from, **results):
    """run.json: the command, the options, the hash of each file that the run began from or made, and its results."""
    out = pathlib.Path(out)
    made = {p.name: sha256_of(p) for p in sorted(out.iterdir()) if p.is_file() and p.name != "run.json"}
    record = {"command": [pathlib.Path(sys.argv[0]).name, *sys.argv[1:]], "options": {k: str(v) for k, v in vars(args).items()},
              "started_from": {pathlib.Path(p).name: sha256_of(p) for p in started_from if p}, "made": made,
              "torch": torch.__version__, **results}
    (out / "run.json").write_text(json.dumps(record, indent=1) + "\n")
