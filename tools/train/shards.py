"""Reads training shards (layout: training_shard.h) and keeps them in the memory of the device that trains."""

import pathlib
import threading
import time

import numpy as np
import torch

UV_SCALE = 8192.0
BELLY, ANIMAL, CLEAR, KNOWN = 1, 2, 4, 8
PARTS = (1, 3, 4, 5)  # head, fore limb, hind limb, tail: flags divided by 16
FACTS = ("difficulty", "subject", "mechanism", "background", "light", "world_seed", "individual", "capture",
         "length", "bend", "roll", "width", "height", "world_kind")
LEAVABLE = ("mechanism", "background", "light", "world_kind")  # facts whose values a training may be asked to do without
MIDLINE = 16
DIFFICULTIES = ("gentle", "middle", "hardest", "wild")
WORLD_KINDS = ("drawn", "solid")
SUBJECTS = ("belly", "back", "empty_tray", "leaf", "small_newt", "blurred")


def read_shard(path):
    """Pictures (n, S, S, 3), flags (n, T, T), uv (n, T, T, 2) and facts (n, M) as numpy arrays."""
    raw = np.fromfile(path, np.uint8)
    if raw[:8].tobytes() != b"EVTRAIN1":
        raise ValueError(f"{path}: not a training shard; it should begin with EVTRAIN1")
    n, side, grid, facts = (int(x) for x in raw[8:24].view(np.int32))
    return _cut(path, raw, [((n, side, side, 3), np.uint8), ((n, grid, grid), np.uint8), ((n, grid, grid, 2), np.int16),
                            ((n, facts), np.float32)])


def read_strip_shard(path):
    """Strips (n, 256, 80, 3), valid, dark and pattern (n, 256, 80) and facts (n, M); layout: strip_shard.h."""
    raw = np.fromfile(path, np.uint8)
    if raw[:8].tobytes() != b"EVSTRIP1":
        raise ValueError(f"{path}: not a strip shard; it should begin with EVSTRIP1")
    n, rows, columns, facts = (int(x) for x in raw[8:24].view(np.int32))
    return _cut(path, raw, [((n, rows, columns, 3), np.uint8)] + [((n, rows, columns), np.uint8)] * 3
                + [((n, facts), np.float32)])


def read_pair_shard(path):
    """Planes (n, 4, 128, 40) and facts (n, M) of compared pairs; layout: pair_shard.h."""
    raw = np.fromfile(path, np.uint8)
    if raw[:8].tobytes() != b"EVPAIR01":
        raise ValueError(f"{path}: not a shard of pairs; it should begin with EVPAIR01")
    n, rows, columns, facts = (int(x) for x in raw[8:24].view(np.int32))
    return _cut(path, raw, [((n, 4, rows, columns), np.uint8), ((n, facts), np.float32)])


def _cut(path, raw, shapes):
    arrays, at = [], 24
    for shape, kind in shapes:
        size = int(np.prod(shape)) * np.dtype(kind).itemsize
        arrays.append(raw[at:at + size].view(kind).reshape(shape))
        at += size
    if at != raw.size:
        raise ValueError(f"{path}: {raw.size} bytes, {at} expected")
    return arrays


class Pool:
    """A ring of samples on the device: the newest `capacity` of those put in.

    `left_out`: for names of facts, values of which no sample is taken; the last array put in holds the facts.
    """

    def __init__(self, capacity, device, left_out=None):
        self.capacity, self.device, self.left_out = capacity, device, left_out or {}
        self.arrays, self.count, self.seen = None, 0, 0

    def put(self, arrays):
        keep = np.ones(len(arrays[-1]), bool)
        for fact, values in self.left_out.items():
            keep &= ~np.isin(arrays[-1][:, FACTS.index(fact)], values)
        arrays = [a[keep] for a in arrays]
        if self.arrays is None:
            self.arrays = [torch.empty((self.capacity, *a.shape[1:]), dtype=torch.from_numpy(a[:1].copy()).dtype,
                                       device=self.device) for a in arrays]
        start = self.seen % self.capacity
        n = min(len(arrays[0]), self.capacity - start)
        for kept, new in zip(self.arrays, arrays):
            kept[start:start + n].copy_(torch.from_numpy(new[:n]))
        self.seen += n
        self.count = min(self.seen, self.capacity)

    def take(self, index):
        """Pictures as channels-last float in [0, 1], flags, uv as float, facts."""
        pictures, flags, uv, facts = (a[index] for a in self.arrays)
        return pictures.permute(0, 3, 1, 2).float() / 255.0, flags, uv.permute(0, 3, 1, 2).float() / UV_SCALE, facts


    def take_strips(self, index):
        """Strips, valid, dark and pattern as float planes in [0, 1], facts."""
        rgb, valid, dark, pattern, facts = (a[index] for a in self.arrays)
        planes = [(x.unsqueeze(1) / 255.0) for x in (valid, dark, pattern)]
        return (rgb.permute(0, 3, 1, 2).float() / 255.0, *planes, facts)


class Feeder(threading.Thread):
    """Moves finished shards from a folder into the pools as they appear, and removes the files."""

    def __init__(self, folder, fit, tune, keep_files=False, read=read_shard):
        super().__init__(daemon=True)
        self.folder, self.fit, self.tune, self.keep_files = pathlib.Path(folder), fit, tune, keep_files
        self.read, self.done, self.stopped, self.error = read, set(), threading.Event(), None

    def check(self):
        """Raises what went wrong while shards were read: a training must not go on without its samples."""
        if self.error:
            raise RuntimeError("training shards could not be read") from self.error

    def run(self):
        while not self.stopped.is_set():
            fresh = [p for p in sorted(self.folder.glob("*.shard")) if p.name not in self.done]
            for path in fresh:
                if self.stopped.is_set():
                    break
                try:
                    (self.tune if path.name.startswith("tune") else self.fit).put(self.read(path))
                    if not self.keep_files:
                        path.unlink()
                except Exception as error:  # raised in the training loop, by check()
                    self.error = error
                    return
                self.done.add(path.name)
            if not fresh:
                time.sleep(0.2)
