"""Trains the spot network and the embedding network on strip shards that appear in a folder, and exports both.

Start it through train.sh. The spot network learns from strips with their true dark skin; the embedding network
from pairs of captures of one animal: some from true patterns at two ages, the others from what the spot network makes
of two strips. All are shifted, stretched and bent as an imperfect straightening would, and partly hidden.
"""

import argparse
import json
import pathlib
import time

import numpy as np
import torch
import torch.nn.functional as F

from augment import chance, photograph, smooth_noise, texture, uniform
from belly_net import cost, export, take_over
from picture import write_png
from shards import DIFFICULTIES, Feeder, Pool, read_strip_shard
from strip_net import COLUMNS, DESCRIPTOR, ROWS, EmbedNet, SpotNet, embedding_loss
from training_run import Average, learning_rate, wait_for_samples, write_record

SIZE = (ROWS, COLUMNS)
FOUND = 0.5  # how far strips are bent that were cut where the finder found the belly: they have errors of their own


def bend(planes, device, amount=1.0):
    """Moves the pattern as errors of midline, width, roll and ends do; `amount` 1 is a poor straightening."""
    n = len(planes)
    each = uniform(n, 0, amount, device)[:, None, None]
    theta = torch.zeros(n, 2, 3, device=device)
    theta[:, 0, 0] = 1 + torch.randn(n, device=device) * 0.05 * each[:, 0, 0]
    theta[:, 1, 1] = 1 + torch.randn(n, device=device) * 0.025 * each[:, 0, 0]
    theta[:, 0, 2] = torch.randn(n, device=device) * 0.06 * each[:, 0, 0]
    theta[:, 1, 2] = torch.randn(n, device=device) * 0.03 * each[:, 0, 0]
    grid = F.affine_grid(theta, (n, 1, *SIZE), align_corners=False)
    wave = F.interpolate(torch.randn(n, 2, 6, 3, device=device), size=SIZE, mode="bicubic", align_corners=False)
    strength = torch.tensor([0.05, 0.015], device=device).reshape(1, 2, 1, 1) * each[..., None]
    grid = grid + (wave * strength).permute(0, 2, 3, 1)
    return F.grid_sample(planes, grid, mode="bilinear", padding_mode="zeros", align_corners=False)


def hide(valid, device):
    """Hides blobs, bars across and one side of some strips."""
    n = len(valid)
    blobs = smooth_noise(n, 1, 6, SIZE, device) > uniform(n, 1.0, 2.5, device).reshape(n, 1, 1, 1)
    shown = valid * ~(blobs & chance(n, 0.5, device).reshape(n, 1, 1, 1))
    v = torch.linspace(-1, 1, COLUMNS, device=device).reshape(1, 1, 1, -1)
    u = torch.linspace(0, 1, ROWS, device=device).reshape(1, 1, -1, 1)
    side = torch.where(chance(n, 0.5, device), 1.0, -1.0).reshape(n, 1, 1, 1)
    rolled = v * side > uniform(n, 0.4, 1.0, device).reshape(n, 1, 1, 1)
    shown = shown * ~(rolled & chance(n, 0.35, device).reshape(n, 1, 1, 1))
    middle, half = uniform(n, 0, 1, device).reshape(n, 1, 1, 1), uniform(n, 0.01, 0.09, device).reshape(n, 1, 1, 1)
    return shown * ~(((u - middle).abs() < half) & chance(n, 0.3, device).reshape(n, 1, 1, 1))


def foreign(rgb, where):
    """Puts made-up surfaces where `where` says: covers, and what lies beyond the edge of the belly."""
    return torch.where(where, texture(len(rgb), SIZE, rgb.device), rgb)


def shine(rgb, clear):
    """Reflected light over some strips: white is added; where it drowns the skin, nothing is plainly seen."""
    n, device = len(rgb), rgb.device
    cells = 5 if float(torch.rand(())) < 0.5 else 14
    field = smooth_noise(n, 1, cells, SIZE, device) - uniform(n, 0.3, 1.5, device).reshape(n, 1, 1, 1)
    added = field.clamp_min(0) * (uniform(n, 0.2, 2.0, device) * chance(n, 0.3, device)).reshape(n, 1, 1, 1)
    return rgb + added, clear * (added < 0.35)


def strip_batch(pool, index, disturbed):
    """Spot network input, and what it should find: dark skin, and skin plainly seen."""
    rgb, clear, dark, _, _ = pool.take_strips(index)
    device = rgb.device
    planes = torch.cat([rgb, clear, dark, torch.ones_like(dark)], 1)
    if disturbed:
        planes = bend(planes, device, FOUND)
        for side in (2, 3):
            if float(torch.rand(())) < 0.5:
                planes = planes.flip(side)
    rgb, clear, dark, inside = planes[:, :3], (planes[:, 3:4] > 0.5).float(), planes[:, 4:5], planes[:, 5:6]
    if disturbed:
        n = len(rgb)
        rgb, clear = shine(foreign(rgb, inside < 0.5), clear)
        cells = 10 if float(torch.rand(())) < 0.5 else 24
        cover = (smooth_noise(n, 1, cells, SIZE, device) > 2.0) & chance(n, 0.3, device).reshape(n, 1, 1, 1)
        rgb, clear = foreign(rgb, cover), clear * ~cover
        rgb = photograph(rgb).clamp(0, 1)
        shown = hide(torch.ones_like(clear), device)
        rgb, clear = rgb * shown + 0.5 * (1 - shown), clear * shown
    return rgb, dark, clear


def pattern_input(dark, valid):
    return torch.cat([(dark - 0.5) * valid, valid], 1)


def soften(pattern):
    """A true pattern as a spot network might give it: blurred, uncertain, speckled."""
    n, device = len(pattern), pattern.device
    small = F.avg_pool2d(pattern, 2)
    soft = F.interpolate(small, scale_factor=2.0, mode="bilinear", align_corners=False)
    x = torch.where(chance(n, 0.5, device).reshape(n, 1, 1, 1), soft, pattern)
    gain = uniform(n, 0.5, 1.0, device).reshape(n, 1, 1, 1)
    shift = smooth_noise(n, 1, 6, SIZE, device) * uniform(n, 0, 0.15, device).reshape(n, 1, 1, 1)
    return ((x - 0.5) * gain + 0.5 + shift + torch.randn_like(x) * 0.05).clamp(0, 1)


def embedding_pairs(pool, index, spot_net, real_share):
    """Inputs for the first and the second captures of animals, from patterns or from strips."""
    both = []
    device = pool.device
    real = torch.rand(len(index), device=device) < real_share
    for offset in (0, 1):
        rgb, _, _, pattern, _ = pool.take_strips(2 * index + offset)
        made = bend(torch.cat([soften(pattern), torch.ones_like(pattern)], 1), device)
        dark, known = made[:, :1], made[:, 1:2]
        if real_share > 0:
            planes = bend(torch.cat([rgb, torch.ones_like(pattern)], 1), device, FOUND)
            inside = planes[:, 3:] > 0.5
            with torch.no_grad():
                found = torch.sigmoid(spot_net(photograph(foreign(planes[:, :3], ~inside)).clamp(0, 1)))
            dark = torch.where(real.reshape(-1, 1, 1, 1), found[:, :1], dark)
            known = torch.where(real.reshape(-1, 1, 1, 1), found[:, 1:], known)
        both.append(pattern_input(dark, hide((known > 0.5).float(), device)))
    return both


def error_rates(mated, non_mated):
    """FNMR where FMR is 1 %, 0.1 % and 0.01 %, and the equal error rate, of similarity scores."""
    ordered = np.sort(non_mated)
    rates = {}
    for fmr in (0.01, 0.001, 0.0001):
        threshold = ordered[min(len(ordered) - 1, int(np.ceil(len(ordered) * (1 - fmr))))]
        rates[f"fnmr_at_fmr_{fmr}"] = float((mated <= threshold).mean())
    thresholds = np.quantile(non_mated, np.linspace(0, 1, 2001))
    fnmr = np.array([(mated <= t).mean() for t in thresholds])
    fmr = 1 - np.linspace(0, 1, 2001)
    at = np.argmin(np.abs(fnmr - fmr))
    rates["eer"] = float((fnmr[at] + fmr[at]) / 2)
    return rates


@torch.no_grad()
def score(spot_net, embed_net, pool, batch=128):
    """Spot error on tuning strips; matching of captures 0 against the others among the tuning animals."""
    spot_net.eval(), embed_net.eval()
    wrong, misseen, described, facts = [], [], [], []
    for start in range(0, pool.count - pool.count % 2, batch):
        index = torch.arange(start, min(start + batch, pool.count - pool.count % 2), device=pool.device)
        x, dark, clear = strip_batch(pool, index, False)
        p, seen = torch.sigmoid(spot_net(x)).split(1, 1)
        wrong.append((((p > 0.5) != (dark > 0.5)).float() * clear).sum((1, 2, 3)) / clear.sum((1, 2, 3)).clamp_min(1))
        misseen.append(((seen > 0.5) != (clear > 0.5)).float().mean((1, 2, 3)))
        described.append(F.normalize(embed_net(pattern_input(p, (seen > 0.5).float())), dim=1))
        facts.append(pool.take_strips(index)[4])
    misseen = torch.cat(misseen).cpu().numpy()
    wrong, described, facts = torch.cat(wrong).cpu().numpy(), torch.cat(described).cpu().numpy(), torch.cat(facts).cpu().numpy()
    similar = described[0::2] @ described[1::2].T
    n = len(similar)
    mated, non_mated = np.diag(similar), similar[~np.eye(n, dtype=bool)]
    result = {"animals": n, "spot_error": float(wrong.mean()), "spot_error_worst_5_percent": float(np.percentile(wrong, 95)), "seen_error": float(misseen.mean()),
              "rank_1": float((similar.argmax(1) == np.arange(n)).mean()), **error_rates(mated, non_mated)}
    for d, name in enumerate(DIFFICULTIES):
        of = facts[:, 0] == d
        pair = of[0::2] & of[1::2]
        if of.any():
            result["spot_error_" + name] = float(wrong[of].mean())
        if pair.any():
            result["rank_1_both_" + name] = float((similar.argmax(1) == np.arange(n))[pair].mean())
    spot_net.train(), embed_net.train()
    return result


@torch.no_grad()
def sheet(spot_net, pool, path, disturbed, count=24):
    spot_net.eval()
    x, dark, clear = strip_batch(pool, torch.arange(min(count, pool.count), device=pool.device), disturbed)
    p, seen = torch.sigmoid(spot_net(x)).split(1, 1)
    shade = lambda a, b: a.expand(-1, 3, -1, -1) * (0.4 + 0.6 * b)  # noqa: E731
    tiles = torch.cat([x, shade(p, seen), shade(dark, clear)], 3)
    write_png(path, torch.cat(list(tiles), 2).permute(1, 2, 0).cpu().numpy() * 255)


def export_all(nets, out):
    for name, net in nets.items():
        planes = 3 if name == "spots" else 2
        torch.save({k: v.cpu() for k, v in net.state_dict().items()}, out / f"{name}.pt")
        plain = export(net, out / f"{name}.onnx", (1, planes, *SIZE))
        torch.manual_seed(7)
        x = torch.rand(1, planes, ROWS // 8, COLUMNS // 8)
        with torch.no_grad():
            y = plain(F.interpolate(x, scale_factor=8.0, mode="nearest"))
        with open(out / f"{name}_network_reference.bin", "wb") as file:
            file.write(x.numpy().astype("<f4").tobytes())
            file.write((y if y.ndim == 2 else y[:, :, 4::8, 4::8]).contiguous().numpy().astype("<f4").tobytes())


def options():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--shards", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--steps", type=int, default=8000)
    parser.add_argument("--batch", type=int, default=128)
    parser.add_argument("--rate", type=float, default=2e-3)
    parser.add_argument("--capacity", type=int, default=60000)
    parser.add_argument("--start", type=int, default=2000)
    parser.add_argument("--tuning", type=int, default=4096)
    parser.add_argument("--keep-files", action="store_true")
    parser.add_argument("--spots-from", help="spots.onnx of an earlier run, to go on from")
    parser.add_argument("--embedding-from", help="embedding.onnx, likewise")
    parser.add_argument("--spots-only", action="store_true", help="the embedding network is neither trained nor written")
    return parser.parse_args()


def spot_and_match_losses(nets, averaged, fit, scale, progress, args, device):
    """What the spot network gets wrong, and the embedding network (0 where it is not trained)."""
    x, dark, clear = strip_batch(fit, torch.randint(0, fit.count, (args.batch,), device=device), True)
    half = torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda" and progress < 0.75)
    with half:
        planes = nets["spots"](x)
    bce = F.binary_cross_entropy_with_logits(planes.float(), torch.cat([dark, clear], 1), reduction="none")
    spot_loss = (bce[:, :1] * clear).sum() / clear.sum().clamp_min(1) + bce[:, 1:].mean()
    if args.spots_only:
        return spot_loss, torch.zeros((), device=device)
    animals = torch.randperm(fit.count // 2, device=device)[:2 * args.batch]
    real_share = 0.0 if progress < 0.15 else 0.6
    first, second = embedding_pairs(fit, animals, averaged.net["spots"].eval(), real_share)
    with half:
        described = nets["embedding"](torch.cat([first, second]))
    one, two = described.float().chunk(2)
    return spot_loss, embedding_loss(one, two, scale.clamp(1.0, 4.2).exp())


def train(nets, averaged, fit, feeder, args, device):
    """The loop; `averaged` is what to keep."""
    scale = torch.nn.Parameter(torch.tensor(3.0, device=device))  # log of the softmax's sharpness
    optimizer = torch.optim.AdamW([{"params": nets.parameters(), "weight_decay": 0.02},
                                   {"params": [scale], "weight_decay": 0.0}], lr=args.rate)
    began, told = time.monotonic(), 0.0
    for step in range(args.steps):
        progress = step / args.steps
        for group in optimizer.param_groups:
            group["lr"] = learning_rate(progress, args.rate)
        spot_loss, match_loss = spot_and_match_losses(nets, averaged, fit, scale, progress, args, device)
        optimizer.zero_grad(set_to_none=True)
        (spot_loss + 0.3 * match_loss).backward()
        torch.nn.utils.clip_grad_norm_(nets.parameters(), 2.0)
        optimizer.step()
        averaged.update(nets)
        if step % 25 == 0:
            feeder.check()
            if time.monotonic() - told > 15:
                told = time.monotonic()
                print(f"{told - began:5.0f} s step {step} strips {fit.count} of {fit.seen} spots {float(spot_loss):.4f} "
                      f"match {float(match_loss):.4f} sharpness {float(scale.exp()):.1f}", flush=True)


def main():
    args = options()
    torch.manual_seed(1)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    torch.backends.cudnn.benchmark = True
    out = pathlib.Path(args.out)
    out.mkdir(parents=True, exist_ok=True)
    spot_net, embed_net = SpotNet(), EmbedNet()
    trained = ("spots",) if args.spots_only else ("spots", "embedding")
    print("spots: weights %d, multiply-adds %d" % cost(spot_net, (1, 3, *SIZE)),
          "embedding: weights %d, multiply-adds %d" % cost(embed_net, (1, 2, *SIZE)), flush=True)
    export_all({"spots": spot_net, "embedding": embed_net}, out)  # what cannot be exported must be known before
    nets = torch.nn.ModuleDict({"spots": spot_net, "embedding": embed_net}).to(device).train()
    averaged = Average(torch.nn.ModuleDict({"spots": SpotNet(), "embedding": EmbedNet()}).to(device), 0.998)

    fit, tune = Pool(args.capacity, device), Pool(args.tuning, device)
    feeder = Feeder(args.shards, fit, tune, args.keep_files, read_strip_shard)
    feeder.start()
    wait_for_samples(fit, feeder, args.start)
    few = torch.arange(min(256, fit.count - fit.count % 2), device=device)
    x, _, _ = strip_batch(fit, few, True)
    if args.spots_from:
        take_over(spot_net, args.spots_from, x)
    if args.embedding_from:
        planes = torch.sigmoid(spot_net.eval()(x)).detach()
        take_over(embed_net, args.embedding_from, pattern_input(planes[:, :1], (planes[:, 1:] > 0.5).float()))
    averaged.net.load_state_dict(nets.train().state_dict())
    train(nets, averaged, fit, feeder, args, device)
    wait_for_samples(tune, feeder, 2)  # to have something to score on
    feeder.stopped.set()
    print(f"trained {args.steps} steps, {fit.seen} strips seen, {tune.count} for tuning", flush=True)
    best = averaged.net
    export_all({name: best[name] for name in trained}, out)
    result = score(best["spots"], best["embedding"], tune)
    (out / "strip_scores.json").write_text(json.dumps(result, indent=1))
    print(json.dumps(result, indent=1), flush=True)
    sheet(best["spots"], tune, out / "strips.png", False)
    sheet(best["spots"], fit, out / "disturbed_strips.png", True)
    write_record(out, args, [args.spots_from, args.embedding_from], steps=args.steps, strips_seen=fit.seen)


if __name__ == "__main__":
    main()
