"""Averages two exported belly networks, the second of which went on from the first.

Usage: average_networks.py FIRST.onnx SECOND.onnx SHARE_OF_SECOND PICTURE OUT
PICTURE: 64 x 64 x 3 bytes, RGB, a belly close up, head up; an old belly_network_reference.bin begins with such.
Writes OUT/belly.onnx and OUT/belly_network_reference.bin.
The mean of two networks on one path of training is often better than either: each
has forgotten what the other's mix of photos did not show (Izmailov et al. 2018, "Averaging weights leads to wider
optima", from memory). Norms are folded into the convolutions before, so their statistics are averaged with them.
"""

import sys
from pathlib import Path

import numpy
import onnx
import torch
from onnx import numpy_helper

from belly_net import BellyNet, export, folded
from train_belly import write_reference


def weights_of(path):
    return {i.name: torch.from_numpy(numpy_helper.to_array(i).copy()) for i in onnx.load(str(path)).graph.initializer}


def main():
    if len(sys.argv) != 6:
        sys.exit(__doc__)
    first, second = weights_of(sys.argv[1]), weights_of(sys.argv[2])
    share, out = float(sys.argv[3]), Path(sys.argv[5])
    net = folded(BellyNet())
    for path, weights in ((sys.argv[1], first), (sys.argv[2], second)):
        if weights.keys() != net.state_dict().keys():
            sys.exit(f"{path}: not a network of the usual depths; only such can be averaged")
    net.load_state_dict({name: torch.lerp(first[name], second[name], share) for name in net.state_dict()})
    out.mkdir(parents=True, exist_ok=True)
    small = numpy.fromfile(sys.argv[4], dtype=numpy.uint8, count=64 * 64 * 3).reshape(1, 64, 64, 3)
    plain = export(net, out / "belly.onnx")
    write_reference(plain, torch.from_numpy(small.transpose(0, 3, 1, 2).copy()), out / "belly_network_reference.bin")


if __name__ == "__main__":
    main()
