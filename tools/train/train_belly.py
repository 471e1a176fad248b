"""Trains the belly network on shards that appear in a folder, for a number of steps, and exports it.

Start it through train.sh, which renders the shards alongside. Everything it makes goes to --out:
belly.onnx, belly.pt (weights, to go on from), belly_network_reference.bin (for the agreement test),
run.json (what it was made from), scores.json and scores.txt (on tuning seeds), sheet.png and looks.png (look at them).
"""

import argparse
import itertools
import json
import math
import pathlib
import time

import numpy as np
import torch
import torch.nn.functional as F

from augment import Grounds, belly_frame, looks, warp
from belly_loss import belly_loss, judge
from belly_net import INPUT, BellyNet, cost, export, take_over
from picture import write_png
from shards import DIFFICULTIES, FACTS, Feeder, LEAVABLE, Pool, SUBJECTS, WORLD_KINDS
from training_run import Average, learning_rate, wait_for_samples, write_record


def still_looks(pool, index, second, turn=0.0):
    """Undisturbed looks for scoring: the whole photo, or the belly head up at 75 % of the frame."""
    pictures, flags, uv, facts = pool.take(index)
    n, side, device = len(index), pictures.shape[-1], pictures.device
    if second:
        centre, axes, _ = belly_frame(facts, torch.full((n,), 0.75, device=device))
        c, s = math.cos(turn), math.sin(turn)
        axes = axes @ torch.tensor([[c, -s], [s, c]], device=device)
    else:
        centre = torch.full((n, 2), side / 2, device=device)
        axes = torch.eye(2, device=device).expand(n, 2, 2) * (side / 2)
    picture, truth, _ = warp(pictures, flags, uv, centre, axes, torch.zeros(n, dtype=torch.bool, device=device))
    truth["small_kind"] = truth["animal"] * (facts[:, 1] == SUBJECTS.index("small_newt")).float()[:, None, None]
    return picture.clamp(0, 1), truth, facts


@torch.no_grad()
def score(net, pool, batch=64):
    """A table of rows (look, difficulty) with means and percentiles, and one of refusals."""
    net.eval()
    rows, texts = [], []
    for look in ("first", "second"):
        collected = []
        for start in range(0, pool.count, batch):
            index = torch.arange(start, min(start + batch, pool.count), device=pool.device)
            picture, truth, facts = still_looks(pool, index, look == "second", 0.15)
            judged = judge(net(picture), truth)
            judged.update(difficulty=facts[:, 0], subject=facts[:, 1], world_kind=facts[:, FACTS.index("world_kind")])
            collected.append({k: v.float().cpu() for k, v in judged.items()})
        all_of = {k: torch.cat([c[k] for c in collected]).numpy() for k in collected[0]}
        shown = (all_of["subject"] == 0) & (all_of["belly_pixels"] >= 60)
        others = (all_of["subject"] != 0) & (all_of["belly_pixels"] < 1)
        for kind, (d, name) in itertools.product(range(len(WORLD_KINDS)), list(enumerate(DIFFICULTIES)) + [(None, "all")]):
            of = all_of["world_kind"] == kind
            if d is not None:
                of &= all_of["difficulty"] == d
            chosen = shown & of
            if chosen.sum() == 0:
                continue
            row = {"look": look, "world": WORLD_KINDS[kind], "difficulty": name, "bellies": int(chosen.sum())}
            for key in ("belly_iou", "clear_iou", "animal_iou", "head_iou", "tail_iou", "u_error", "v_error", "log_scale"):
                row[key] = float(all_of[key][chosen].mean())
            for key in ("belly_iou", "u_error", "v_error"):
                row[key + "_worst_5_percent"] = float(np.percentile(all_of[key][chosen], 5 if "iou" in key else 95))
                row[key + "_median"] = float(np.median(all_of[key][chosen]))
            row["flipped"] = float(all_of["flipped"][chosen].mean())
            refused = others & of
            if look == "first" and refused.sum() > 0:
                good, bad = all_of["score"][chosen], all_of["score"][refused]
                row["others"] = int(refused.sum())
                row["auc"] = float((good[:, None] > bad[None]).mean() + 0.5 * (good[:, None] == bad[None]).mean())
                row["others_taken_when_half_percent_refused"] = float((bad > np.quantile(good, 0.005)).mean())
            rows.append(row)
            texts.append(f"{look:6} {row['world']:5} {name:8} n {row['bellies']:5} IoU {row['belly_iou']:.3f} (5 % {row['belly_iou_worst_5_percent']:.3f})"
                         f" clear {row['clear_iou']:.3f} animal {row['animal_iou']:.3f} head {row['head_iou']:.3f} tail {row['tail_iou']:.3f}"
                         f" |u| {row['u_error']:.4f} (median {row['u_error_median']:.4f}, 95 % {row['u_error_worst_5_percent']:.4f})"
                         f" |v| {row['v_error']:.4f} (median {row['v_error_median']:.4f}, 95 % {row['v_error_worst_5_percent']:.4f})"
                         f" flipped {100 * row['flipped']:.2f} %" + (f" others {row['others']} AUC {row['auc']:.4f} taken {100 * row['others_taken_when_half_percent_refused']:.1f} %" if "auc" in row else ""))
        if look == "first":
            for s, name in enumerate(SUBJECTS):
                of = all_of["subject"] == s
                if of.any():
                    texts.append(f"       subject {name}: n {of.sum()}, belly score mean {all_of['score'][of].mean():.3f}, share over one half"
                                 f" {100 * (all_of['score'][of] > 0.5).mean():.1f} %, small kind mean {all_of['small_kind'][of].mean():.3f}")
    net.train()
    return rows, "\n".join(texts)


def paint(planes, truth=None):
    """u as brightness bands, v as hue, drawn where there is belly: (n, 128, 128, 3) in 0..255."""
    if truth is None:
        belly, u, v, clear = torch.sigmoid(planes[:, 0]), planes[:, 3], planes[:, 4], torch.sigmoid(planes[:, 2])
    else:
        belly, u, v, clear = truth["belly"], truth["uv"][:, 0], truth["uv"][:, 1], truth["clear"]
    band = 0.55 + 0.45 * torch.cos(u * math.pi * 20)
    rgb = torch.stack([u.clamp(0, 1) * band, (v * 0.5 + 0.5).clamp(0, 1) * band, clear * 0.8], -1)
    return (rgb * (belly > 0.5)[..., None] * 255).float().cpu().numpy()


@torch.no_grad()
def sheet(net, picture, truth, path, columns=6):
    """Pictures with what the network says of them and what is true, side by side."""
    net.eval()
    planes = net(picture)
    net.train()
    photo = (F.avg_pool2d(picture, 2).permute(0, 2, 3, 1) * 255).cpu().numpy()
    tiles = np.concatenate([photo, paint(planes), paint(None, truth)], 2)
    rows = [np.concatenate(tiles[i:i + columns], 1) for i in range(0, len(tiles) - columns + 1, columns)]
    write_png(path, np.concatenate(rows, 0))


def write_reference(plain, small, path):
    """A small reference for the agreement test.

    64 x 64 x 3 bytes, RGB, whose pixels repeated four times each way are the input; then 7 x 16 x 16 float32, every
    eighth value of the output from the fifth on.
    """
    with torch.no_grad():
        planes = plain(F.interpolate(small.float() / 255, scale_factor=4.0, mode="nearest"))
    with open(path, "wb") as file:
        file.write(small[0].permute(1, 2, 0).contiguous().numpy().tobytes())
        file.write(planes[0, :, 4::8, 4::8].contiguous().numpy().astype("<f4").tobytes())


def plainest_belly(pool, batch=64):
    """The undisturbed first look with the most belly of all that the pool holds, or nothing: the reference needs one."""
    best, most = None, 0.0
    for start in range(0, pool.count, batch):
        picture, truth, _ = still_looks(pool, torch.arange(start, min(start + batch, pool.count), device=pool.device), False)
        area = truth["belly"].sum((1, 2))
        if float(area.max()) > most:
            most, best = float(area.max()), picture[int(area.argmax())][None]
    return best


def save(net, out, picture):
    """Weights, the exported network, and, where there is a picture for it, the reference of the agreement test."""
    torch.save({k: v.cpu() for k, v in net.state_dict().items()}, out / "belly.pt")
    plain = export(net, out / "belly.onnx")
    if picture is None:
        print("no picture of a belly yet: belly_network_reference.bin is not written", flush=True)
        return
    small = (F.avg_pool2d(picture[:1].float().cpu(), 4) * 255).round().to(torch.uint8)
    write_reference(plain, small, out / "belly_network_reference.bin")


def numbers(text):
    return [int(x) for x in text.split(",") if x]


def options():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--shards", required=True, help="folder in which shards appear")
    parser.add_argument("--out", required=True, help="folder for what is made")
    parser.add_argument("--steps", type=int, default=16000, help="how long to train")
    parser.add_argument("--save-every", type=int, default=0, help="write the weights after so many steps, in case the host goes away")
    parser.add_argument("--batch", type=int, default=128)
    parser.add_argument("--rate", type=float, default=2e-3, help="peak learning rate")
    parser.add_argument("--capacity", type=int, default=40000, help="samples kept on the device")
    parser.add_argument("--start", type=int, default=2000, help="samples to wait for before training")
    parser.add_argument("--tuning", type=int, default=2048, help="tuning samples to expect at most")
    parser.add_argument("--grounds", help="folder of photographs to set animals on (fetch_grounds.sh)")
    parser.add_argument("--from-weights", help="belly.pt of an earlier run")
    parser.add_argument("--from-onnx", help="belly.onnx of an earlier run, of the same widths")
    parser.add_argument("--keep-files", action="store_true", help="leave the shards where they are")
    parser.add_argument("--seed", type=int, default=1, help="of what training draws; the samples have their own")
    parser.add_argument("--depths", type=numbers, default="1,2,4,4", help="residual blocks at 64, 32, 16 and 8 pixels across")
    for what in LEAVABLE:
        parser.add_argument(f"--without-{what.replace('_', '-')}", type=numbers, default="", metavar="NUMBERS",
                            help=f"train on no sample with these {what}s, numbered as in the samples' facts: 3,5")
    return parser.parse_args()


def optimizer_of(net, rate):
    matrices = [p for p in net.parameters() if p.ndim > 1]
    vectors = [p for p in net.parameters() if p.ndim <= 1]
    return torch.optim.AdamW([{"params": matrices, "weight_decay": 0.02}, {"params": vectors, "weight_decay": 0.0}], lr=rate)


def train(net, averaged, fit, feeder, args, device):
    """The loop; `averaged` is what to keep."""
    optimizer = optimizer_of(net, args.rate)
    began, told, running = time.monotonic(), 0.0, {}
    for step in range(args.steps):
        progress = step / args.steps
        for group in optimizer.param_groups:
            group["lr"] = learning_rate(progress, args.rate)
        index = torch.randint(0, fit.count, (args.batch,), device=device)
        picture, truth = looks(fit, index)
        # Half precision is coarse for coordinates: the head never uses it, and nothing does near the end.
        with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda" and progress < 0.75):
            features = net.features(picture.contiguous(memory_format=torch.channels_last))
        parts = belly_loss(net.head(features.float()), truth)
        optimizer.zero_grad(set_to_none=True)
        sum(parts.values()).backward()
        torch.nn.utils.clip_grad_norm_(net.parameters(), 2.0)
        optimizer.step()
        averaged.update(net)
        if args.save_every and (step + 1) % args.save_every == 0:
            save(averaged.net, pathlib.Path(args.out), None)
        if step % 25 == 0:  # reading a loss waits for the device
            feeder.check()
            for name, value in parts.items():
                value = float(value)
                if not math.isfinite(value):
                    raise FloatingPointError(f"step {step}: the loss of {name} is {value}")
                running[name] = value if name not in running else 0.8 * running[name] + 0.2 * value
            elapsed = time.monotonic() - began
            if elapsed - told > 15 or step == 0:
                told = elapsed
                print(f"{elapsed:5.0f} s step {step} samples {fit.count} of {fit.seen} rate {learning_rate(progress, args.rate):.5f} "
                      + " ".join(f"{k} {v:.4f}" for k, v in running.items()), flush=True)


def main():
    args = options()
    left_out = {what: getattr(args, f"without_{what}") for what in LEAVABLE}
    began = time.monotonic()
    torch.manual_seed(args.seed)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    torch.backends.cudnn.allow_tf32 = True
    out = pathlib.Path(args.out)
    out.mkdir(parents=True, exist_ok=True)
    if args.grounds:
        Grounds.load(args.grounds, device)

    net = BellyNet(depths=args.depths)
    print("weights %d, multiply-adds %d" % cost(net), flush=True)
    if args.from_weights:
        net.load_state_dict(torch.load(args.from_weights, map_location="cpu"))
    save(net, out, None)  # what cannot be exported must be known before it is trained
    net = net.to(device).to(memory_format=torch.channels_last).train()

    fit, tune = Pool(args.capacity, device, left_out), Pool(args.tuning, device)
    feeder = Feeder(args.shards, fit, tune, args.keep_files)
    feeder.start()
    wait_for_samples(fit, feeder, args.start)
    if args.from_onnx:
        take_over(net, args.from_onnx, looks(fit, torch.arange(min(256, fit.count), device=device))[0])
    averaged = Average(BellyNet(depths=args.depths).to(device).to(memory_format=torch.channels_last), 0.9985)
    averaged.net.load_state_dict(net.state_dict())
    averaged.net.train()
    train(net, averaged, fit, feeder, args, device)
    feeder.stopped.set()
    print(f"trained {args.steps} steps of {args.batch}, {fit.seen} samples seen, {tune.count} for tuning", flush=True)

    best = averaged.net
    save(best, out, plainest_belly(tune))
    scores, text = score(best, tune)
    (out / "scores.json").write_text(json.dumps(scores, indent=1))
    (out / "scores.txt").write_text(text + "\n")
    print(text, flush=True)
    some = torch.arange(min(48, tune.count), device=device)
    sheet(best, *still_looks(tune, some, False)[:2], out / "sheet.png")
    sheet(best, *looks(fit, torch.arange(min(48, fit.count), device=device)), out / "looks.png")
    write_record(out, args, [args.from_weights, args.from_onnx], steps=args.steps, samples_seen=fit.seen,
                 seconds=round(time.monotonic() - began))
    print(f"{time.monotonic() - began:.0f} s in all", flush=True)


if __name__ == "__main__":
    main()
