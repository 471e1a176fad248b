"""Turns strip shards into spot maps by a trained spot network (layout: map_shard.h), for comparing pairs.

usage: spot_maps.py STRIPS spots.pt OUT FILES   the animals are dealt to FILES files of fit seeds, a fifth as many of
tuning seeds. Animals of whom a strip shows too little are left out.
The product also takes for unknown what the belly finder says was not seen; a strip shard does not hold that.
"""

import pathlib
import sys

import numpy as np
import torch

from shards import read_strip_shard
from strip_net import COLUMNS, ROWS, SpotNet

LEAST_KNOWN = 0.15  # share of the canvas
WORLD, INDIVIDUAL, YEARS = 2, 3, 4  # among a strip's facts


def maps_of(net, rgb, device, batch=256):
    """Dark (0 to 255, 0 where unknown) and known (255 or 0) of strips (n, 256, 80, 3)."""
    dark, known = [], []
    with torch.no_grad():
        for start in range(0, len(rgb), batch):
            x = torch.from_numpy(rgb[start:start + batch]).to(device).permute(0, 3, 1, 2).float() / 255
            p, seen = torch.sigmoid(net(x)).split(1, 1)
            there = seen[:, 0] >= 0.5
            known.append((there * 255).byte().cpu().numpy())
            dark.append(((p[:, 0] * 255).round() * there).byte().cpu().numpy())
    return np.concatenate(dark), np.concatenate(known)


def write(path, dark, known, facts):
    with open(path, "wb") as file:
        file.write(b"EVMAPS01" + np.array([len(dark), ROWS, COLUMNS, 3], "<i4").tobytes())
        for array in (dark, known, facts.astype("<f4")):
            file.write(np.ascontiguousarray(array).tobytes())


def main():
    strips, weights, out, files = pathlib.Path(sys.argv[1]), sys.argv[2], pathlib.Path(sys.argv[3]), int(sys.argv[4])
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    net = SpotNet()
    net.load_state_dict(torch.load(weights, map_location="cpu"))
    net.to(device).eval()
    out.mkdir(parents=True, exist_ok=True)
    for kind, parts in (("fit", files), ("tune", max(1, files // 5))):
        made = []
        for path in sorted(strips.glob(kind + "-*.shard")):
            rgb, _, _, _, facts = read_strip_shard(path)
            dark, known = maps_of(net, rgb, device)
            shown = known.mean((1, 2)) / 255 >= LEAST_KNOWN
            both = np.repeat(shown[0::2] & shown[1::2], 2)
            made.append((dark[both], known[both], facts[both][:, [WORLD, INDIVIDUAL, YEARS]], len(both)))
        if not made:
            continue
        dark, known, facts = (np.concatenate([m[k] for m in made]) for k in range(3))
        print(f"{kind}: {len(dark)} maps of {sum(m[3] for m in made)} strips", flush=True)
        for part, animals in enumerate(np.array_split(np.arange(len(dark) // 2), parts)):
            rows = np.stack([2 * animals, 2 * animals + 1], 1).ravel()
            write(out / f"{kind}-{part:03d}.maps", dark[rows], known[rows], facts[rows])


if __name__ == "__main__":
    main()
