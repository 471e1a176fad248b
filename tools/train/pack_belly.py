"""Packs an exported belly network for models/weights: weights rounded to half precision, then gzip.

Usage: pack_belly.py IN.onnx PICTURE OUT
PICTURE: as for average_networks.py.
Writes OUT/belly.onnx.gz and OUT/belly_network_reference.bin, which holds the rounded network to the framework.
OpenCV 4.6 reads no half-precision weights from ONNX, so they stay single precision in the file; rounded, they pack to
six tenths. To go on from a packed network, gunzip it first.
"""

import gzip
import sys
import tempfile
from pathlib import Path

import numpy
import torch

from average_networks import weights_of
from belly_net import BellyNet, export, folded
from train_belly import write_reference


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    out = Path(sys.argv[3])
    out.mkdir(parents=True, exist_ok=True)
    weights = weights_of(sys.argv[1])
    net = folded(BellyNet())
    net.load_state_dict({name: weights[name].half().float() for name in net.state_dict()})
    with tempfile.TemporaryDirectory() as folder:
        plain = export(net, Path(folder) / "belly.onnx")
        # No name and no time inside: the same network packs to the same bytes.
        packed = gzip.compress((Path(folder) / "belly.onnx").read_bytes(), 9, mtime=0)
    (out / "belly.onnx.gz").write_bytes(packed)
    small = numpy.fromfile(sys.argv[2], dtype=numpy.uint8, count=64 * 64 * 3).reshape(1, 64, 64, 3)
    write_reference(plain, torch.from_numpy(small.transpose(0, 3, 1, 2).copy()), out / "belly_network_reference.bin")


if __name__ == "__main__":
    main()
