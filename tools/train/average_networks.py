"""Averages two exported networks, the second of which went on from the first.

Usage: average_networks.py belly|spots|embedding FIRST.onnx SECOND.onnx SHARE_OF_SECOND OUT [PICTURE]
PICTURE, for a belly network alone: 64 x 64 x 3 bytes, RGB, a belly close up, head up; an old
belly_network_reference.bin begins with such. Writes OUT/KIND.onnx and OUT/KIND_network_reference.bin.
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
from strip_net import EmbedNet, SpotNet
from train_belly import write_reference
from train_strip import export_all

KINDS = {"belly": BellyNet, "spots": SpotNet, "embedding": EmbedNet}


def weights_of(path):
    return {i.name: torch.from_numpy(numpy_helper.to_array(i).copy()) for i in onnx.load(str(path)).graph.initializer}


def averaged(kind, paths, share):
    net = folded(KINDS[kind]())
    first, second = (weights_of(path) for path in paths)
    for path, weights in zip(paths, (first, second)):
        if weights.keys() != net.state_dict().keys():
            sys.exit(f"{path}: not a {kind} network of the usual layers; only such can be averaged")
    net.load_state_dict({name: torch.lerp(first[name], second[name], share) for name in net.state_dict()})
    return net


def main():
    if len(sys.argv) not in (6, 7) or sys.argv[1] not in KINDS or (len(sys.argv) == 7) != (sys.argv[1] == "belly"):
        sys.exit(__doc__)
    kind, share, out = sys.argv[1], float(sys.argv[4]), Path(sys.argv[5])
    net = averaged(kind, sys.argv[2:4], share)
    out.mkdir(parents=True, exist_ok=True)
    if kind != "belly":
        export_all({kind: net}, out)
        return
    small = numpy.fromfile(sys.argv[6], dtype=numpy.uint8, count=64 * 64 * 3).reshape(1, 64, 64, 3)
    plain = export(net, out / "belly.onnx")
    write_reference(plain, torch.from_numpy(small.transpose(0, 3, 1, 2).copy()), out / "belly_network_reference.bin")


if __name__ == "__main__":
    main()
