"""Trains the pair network on shards of compared pairs that appear in a folder, and exports it.

Beside its scores stand those of a logistic model of the measures without it and with it, all three fitted on the
same pairs of fit seeds and shown on those of tuning seeds.
"""

import argparse
import json
import pathlib
import time

import torch

from augment import chance, smooth_noise, uniform
from belly_net import cost, export, take_over
from pair_net import COLUMNS, PLANES, ROWS, PairNet, ratio_cost
from picture import write_png
from shards import Feeder, Pool, read_pair_shard
from training_run import Average, learning_rate, wait_for_samples, write_record

SAME, WEIGHT, ORDER, MEASURES = 0, 1, 2, 3
SIZE = (ROWS, COLUMNS)


def planes_of(stored, later_first):
    """Network input of stored planes, the earlier map first; `later_first` says where the fixed map is the later."""
    x = stored.float() / 255
    x = torch.where(later_first.reshape(-1, 1, 1, 1), x[:, [2, 3, 0, 1]], x)
    return torch.cat([(x[:, :1] - 0.5) * x[:, 1:2], x[:, 1:2], (x[:, 2:3] - 0.5) * x[:, 3:], x[:, 3:]], 1)


def disturbed(x):
    """Both maps mirrored, or turned end for end, as one; each hidden in places, and surer or less sure than it was."""
    n, device = len(x), x.device
    for side in (2, 3):
        x = torch.where(chance(n, 0.5, device).reshape(n, 1, 1, 1), x.flip(side), x)
    out = []
    for k in (0, 2):
        dark, weight = x[:, k:k + 1], x[:, k + 1:k + 2]
        blobs = smooth_noise(n, 1, 6, SIZE, device) > uniform(n, 1.2, 2.5, device).reshape(n, 1, 1, 1)
        shown = ~(blobs & chance(n, 0.3, device).reshape(n, 1, 1, 1))
        gain = uniform(n, 0.8, 1.2, device).reshape(n, 1, 1, 1)
        dark = (dark * gain + torch.randn_like(dark) * 0.02 * weight).clamp(-0.5, 0.5)
        out += [dark * shown, weight * shown]
    return torch.cat(out, 1)


class Groups:
    """Places of pairs of one animal, of near different pairs, and of those that stand for many."""

    def __init__(self, facts):
        same, stands_for = facts[:, SAME] > 0.5, facts[:, WEIGHT]
        self.places = [torch.nonzero(same).flatten(), torch.nonzero(~same & (stands_for <= 1)).flatten(),
                       torch.nonzero(~same & (stands_for > 1)).flatten()]
        self.share = [float(stands_for[p].sum()) for p in self.places]

    def draw(self, counts):
        """Places, and how many pairs each then stands for."""
        index, weight = [], []
        for places, share, count in zip(self.places, self.share, counts):
            index.append(places[torch.randint(0, len(places), (count,), device=places.device)])
            weight.append(torch.full((count,), share / count, device=places.device))
        return torch.cat(index), torch.cat(weight)


@torch.no_grad()
def judge(net, pool, batch=2048):
    """Of every pair; where the order is not known, the mean of both orders."""
    net.eval()
    out = []
    for start in range(0, pool.count, batch):
        stored, facts = (a[start:min(start + batch, pool.count)] for a in pool.arrays)
        order = facts[:, ORDER]
        first, second = net(planes_of(stored, order == 2)), net(planes_of(stored, order != 1))
        out.append(torch.where(order == 0, (first[:, 0] + second[:, 0]) / 2, first[:, 0]))
    net.train()
    return torch.cat(out)


def fitted(inputs, facts):
    """A logistic model over standardised inputs, as a function."""
    mean, spread = inputs.mean(0), inputs.std(0).clamp_min(1e-6)
    standard = lambda x: ((x - mean) / spread).clamp(-4, 4)  # noqa: E731
    weights = torch.zeros(inputs.shape[1] + 1, device=inputs.device, requires_grad=True)
    optimizer = torch.optim.LBFGS([weights], max_iter=60, line_search_fn="strong_wolfe")
    x = standard(inputs)

    def closure():
        optimizer.zero_grad()
        loss = ratio_cost(x @ weights[1:] + weights[0], facts[:, SAME], facts[:, WEIGHT])
        loss = loss + 1e-5 * weights[1:].square().sum()
        loss.backward()
        return loss

    optimizer.step(closure)
    return lambda y: standard(y) @ weights[1:].detach() + weights[0].detach()


def scores(ratio, facts):
    same = facts[:, SAME] > 0.5
    other = ratio[~same].sort(descending=True).values
    result = {"same": int(same.sum()), "different": len(other),
              "cost_at_even_odds": float(ratio_cost(ratio, facts[:, SAME], facts[:, WEIGHT], (0.5,))),
              "cost_over_priors": float(ratio_cost(ratio, facts[:, SAME], facts[:, WEIGHT]))}
    for place in (0, 9, 99):
        if place < len(other):
            result[f"same_not_above_number_{place + 1}"] = float((ratio[same] <= other[place]).float().mean())
    return result


def score(net, fit, tune):
    judged = {name: judge(net, pool) for name, pool in (("fit", fit), ("tune", tune))}
    facts = {name: pool.arrays[1][:pool.count] for name, pool in (("fit", fit), ("tune", tune))}
    measures = {name: f[:, MEASURES:] for name, f in facts.items()}
    joined = {name: torch.cat([measures[name], judged[name][:, None]], 1) for name in judged}
    result = {}
    for kind, inputs in (("measures", measures), ("network", {n: j[:, None] for n, j in judged.items()}), ("both", joined)):
        result[kind] = scores(fitted(inputs["fit"], facts["fit"])(inputs["tune"]), facts["tune"])
    result["network_alone"] = scores(judged["tune"], facts["tune"])
    result["network_alone_on_fit"] = scores(judged["fit"], facts["fit"])
    return result


def sheet(net, pool, path, count=28):
    """The pairs it is most wrong about: those of one animal it denies, then different ones it takes for one."""
    ratio, facts = judge(net, pool), pool.arrays[1][:pool.count]
    same = facts[:, SAME] > 0.5
    order = torch.cat([torch.nonzero(same).flatten()[ratio[same].argsort()[:count]],
                       torch.nonzero(~same).flatten()[ratio[~same].argsort(descending=True)[:count]]])
    x = pool.arrays[0][order].float()
    shade = lambda dark, weight: torch.stack([dark, dark, 255 - weight], 1)  # noqa: E731
    tiles = torch.cat([shade(x[:, 0], x[:, 1]), shade(x[:, 2], x[:, 3])], 3)
    tiles = torch.nn.functional.pad(tiles, (2, 2, 2, 2), value=255)
    rows = [torch.cat(list(part), 2) for part in tiles.split(count)]
    write_png(path, torch.cat(rows, 1).permute(1, 2, 0).cpu().numpy())


def save(net, out):
    torch.save({k: v.cpu() for k, v in net.state_dict().items()}, out / "pairs.pt")
    plain = export(net, out / "pairs.onnx", (1, PLANES, *SIZE))
    torch.manual_seed(7)
    x = torch.rand(4, PLANES, ROWS // 8, COLUMNS // 8)
    with torch.no_grad():
        y = plain(torch.nn.functional.interpolate(x, scale_factor=8.0, mode="nearest"))
    with open(out / "pairs_network_reference.bin", "wb") as file:
        file.write(x.numpy().astype("<f4").tobytes() + y.contiguous().numpy().astype("<f4").tobytes())


def options():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--shards", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--steps", type=int, default=3000)
    parser.add_argument("--batch", type=int, default=256, help="pairs of one animal in a batch; as many others twice over")
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--capacity", type=int, default=400000)
    parser.add_argument("--tuning", type=int, default=60000)
    parser.add_argument("--start", type=int, default=3000, help="pairs to wait for")
    parser.add_argument("--from-onnx", help="pairs.onnx of an earlier run, to go on from")
    return parser.parse_args()


def train(net, averaged, fit, feeder, args, device):
    """The loop; `averaged` is what to keep."""
    optimizer = torch.optim.AdamW(net.parameters(), lr=args.rate, weight_decay=0.02)
    began, told, known = time.monotonic(), 0.0, 0
    for step in range(args.steps):
        if fit.count > known * 1.05:
            known = fit.count
            groups = Groups(fit.arrays[1][:known])
        for group in optimizer.param_groups:
            group["lr"] = learning_rate(step / args.steps, args.rate)
        index, weight = groups.draw((args.batch, args.batch, args.batch))
        stored, facts = (a[index] for a in fit.arrays)
        order = facts[:, ORDER]
        later_first = (order == 2) | ((order == 0) & chance(len(index), 0.5, device))
        x = disturbed(planes_of(stored, later_first))
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
            logit = net(x)
        loss = ratio_cost(logit.float()[:, 0], facts[:, SAME], weight)
        optimizer.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 2.0)
        optimizer.step()
        averaged.update(net)
        if step % 25 == 0:
            feeder.check()
            if time.monotonic() - told > 15:
                told = time.monotonic()
                print(f"{told - began:5.0f} s step {step} pairs {fit.count} cost {float(loss):.4f}", flush=True)


def main():
    args = options()
    torch.manual_seed(1)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    out = pathlib.Path(args.out)
    out.mkdir(parents=True, exist_ok=True)
    net = PairNet()
    print("weights %d, multiply-adds %d" % cost(net, (1, PLANES, *SIZE)), flush=True)
    save(net, out)  # what cannot be exported must be known before it is trained
    net = net.to(device).train()
    averaged = Average(PairNet().to(device), 0.998)
    fit, tune = Pool(args.capacity, device), Pool(args.tuning, device)
    feeder = Feeder(args.shards, fit, tune, True, read_pair_shard)
    feeder.start()
    wait_for_samples(fit, feeder, args.start)
    if args.from_onnx:
        take_over(net, args.from_onnx, planes_of(fit.arrays[0][:512], fit.arrays[1][:512, ORDER] == 2))
    averaged.net.load_state_dict(net.train().state_dict())
    train(net, averaged, fit, feeder, args, device)
    feeder.stopped.set()
    print(f"trained {args.steps} steps on {fit.count} pairs, {tune.count} for tuning", flush=True)
    save(averaged.net, out)
    result = score(averaged.net, fit, tune)
    (out / "pair_scores.json").write_text(json.dumps(result, indent=1))
    print(json.dumps(result, indent=1), flush=True)
    sheet(averaged.net, tune, out / "pairs.png")
    write_record(out, args, [args.from_onnx], steps=args.steps, pairs=fit.count)


if __name__ == "__main__":
    main()
