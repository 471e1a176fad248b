"""Makes training looks out of stored samples: where the camera looks, and what light, lens and hands do to it.

All on the device, a batch at a time. `looks` turns samples into network inputs and targets:
  first look   the letterboxed photo, turned, moved, scaled and sheared a little or not at all;
  second look  the belly head up and 45 to 80 % of the frame, as the matcher cuts it after its first look.
A mirrored look has its v negated: left and right of the skin change places.
"""

import math

import torch
import torch.nn.functional as F

from belly_net import INPUT, OUTPUT
from shards import ANIMAL, BELLY, CLEAR, KNOWN, MIDLINE


SIZE = (INPUT, INPUT)


def uniform(n, low, high, device):
    return torch.rand(n, device=device) * (high - low) + low


def chance(n, p, device):
    return torch.rand(n, device=device) < p


def _turn(angle):
    c, s = torch.cos(angle), torch.sin(angle)
    return torch.stack([torch.stack([c, -s], 1), torch.stack([s, c], 1)], 1)


def _first_look(n, side, plain_share, device):
    """Centre (n, 2) and half-axes (n, 2, 2) of the frame, in picture pixels."""
    plain = chance(n, plain_share, device)
    quarter = torch.randint(0, 4, (n,), device=device) * (math.pi / 2)
    angle = torch.where(plain, quarter, uniform(n, 0, 2 * math.pi, device))
    scale = torch.where(plain, torch.ones(n, device=device), torch.exp(uniform(n, -0.5, 0.25, device)))
    moved = torch.where(plain[:, None], torch.zeros(n, 2, device=device),
                        (torch.rand(n, 2, device=device) - 0.5) * 0.3)
    return side * (0.5 + moved), _turn(angle) * (scale * side / 2)[:, None, None], plain


def belly_frame(facts, share):
    """The frame that shows the belly head up and `share` of its height, from the true midline."""
    midline = facts[:, MIDLINE:].reshape(len(facts), -1, 2)
    third = midline.shape[1] // 3
    down = midline[:, -third:].mean(1) - midline[:, :third].mean(1)
    down = down / down.norm(dim=1, keepdim=True).clamp_min(1e-3)
    right = torch.stack([down[:, 1], -down[:, 0]], 1)
    axes = torch.stack([right, down], 2)  # columns: where the frame's x and y point in the picture
    within = midline @ axes
    low, high = within.amin(1), within.amax(1)
    centre = (axes @ ((low + high) / 2)[:, :, None])[:, :, 0]
    breadth = 0.25 * facts[:, 8]
    extent = torch.maximum(high[:, 1] - low[:, 1], high[:, 0] - low[:, 0] + breadth).clamp_min(8.0)
    return centre, axes * (extent / (2 * share))[:, None, None], extent


def _second_look(facts, device):
    n = len(facts)
    centre, axes, extent = belly_frame(facts, uniform(n, 0.45, 0.8, device))
    angle = uniform(n, -25, 25, device) * (math.pi / 180)
    angle = angle + chance(n, 0.15, device) * math.pi
    centre = centre + (torch.rand(n, 2, device=device) - 0.5) * 0.2 * extent[:, None]
    return centre, axes @ _turn(angle)


def smooth_noise(n, channels, cells, size, device):
    """Random fields with about `cells` ups and downs each way, on a grid of `size` (rows, columns)."""
    mode = "bicubic" if cells < 16 else "bilinear"
    return F.interpolate(torch.randn(n, channels, cells, cells, device=device), size=size, mode=mode,
                         align_corners=False)


def _grids(centre, axes, side, bend, device):
    """Sampling grids at twice the input's size, for the picture, and twice the output's, for the truth."""
    theta = torch.cat([axes, (centre - side / 2)[:, :, None]], 2) / (side / 2)
    grids = []
    for size in (2 * INPUT, 2 * OUTPUT):
        grid = F.affine_grid(theta, (len(theta), 1, size, size), align_corners=False)
        if bend is not None:
            grid = grid + F.interpolate(bend, size=(size, size), mode="bicubic", align_corners=False).permute(0, 2, 3, 1)
        grids.append(grid)
    return grids


def _sample(planes, grid):
    return F.grid_sample(planes, grid, mode="bilinear", padding_mode="zeros", align_corners=False)


def warp(pictures, flags, uv, centre, axes, mirrored, bend=None):
    """Resamples pictures to the network's input and their truth to its output.

    Returns the picture, a dict of planes (belly, animal, clear, known: shares in [0, 1]; uv), and the animal's
    mask at the picture's size.
    """
    device, side = pictures.device, pictures.shape[-1]
    axes = axes.clone()
    axes[:, :, 0] = torch.where(mirrored[:, None], -axes[:, :, 0], axes[:, :, 0])
    picture_grid, truth_grid = _grids(centre, axes, side, bend, device)
    picture = F.avg_pool2d(_sample(pictures - 0.5, picture_grid), 2) + 0.5
    masks = torch.stack([(flags & bit).ne(0).float() for bit in (BELLY, ANIMAL, CLEAR, KNOWN)], 1)
    sampled = _sample(torch.cat([masks, uv * masks[:, 3:4]], 1), truth_grid)
    animal = sampled[:, 1:2]
    sampled = F.avg_pool2d(sampled, 2)
    known = sampled[:, 3:4]
    coordinates = sampled[:, 4:6] / known.clamp_min(0.1)
    sign = torch.ones(len(flags), 2, 1, 1, device=device)
    sign[:, 1, 0, 0] = torch.where(mirrored, -1.0, 1.0)
    truth = {"belly": sampled[:, 0], "animal": sampled[:, 1], "clear": sampled[:, 2], "known": known[:, 0],
             "uv": coordinates * sign}
    return picture, truth, animal


def looks(pool, index, second_share=0.5):
    """A batch of training inputs (n, 3, 256, 256) with their truth, freshly disturbed."""
    pictures, flags, uv, facts = pool.take(index)
    n, side, device = len(index), pictures.shape[-1], pictures.device
    centre, axes, plain = _first_look(n, side, 0.35, device)
    is_belly = facts[:, 1] == 0
    second = chance(n, second_share, device) & is_belly
    centre2, axes2 = _second_look(facts, device)
    centre = torch.where(second[:, None], centre2, centre)
    axes = torch.where(second[:, None, None], axes2, axes)
    free = (~plain | second)[:, None, None]
    shear = torch.eye(2, device=device) + free * torch.randn(n, 2, 2, device=device) * 0.05
    bend = torch.randn(n, 2, 4, 4, device=device) * (0.03 * chance(n, 0.3, device))[:, None, None, None]
    picture, truth, animal = warp(pictures, flags, uv, centre, axes @ shear, chance(n, 0.5, device), bend)
    empty = pictures[torch.nonzero(~((flags & ANIMAL).ne(0).flatten(1).any(1)))[:, 0]]
    picture = _other_ground(picture, animal, empty)
    picture = _cover(picture, truth)
    return photograph(picture).clamp_(0, 1), truth


def texture(n, size, device):
    """Random surfaces: a colour, with coarse to fine variation of its own and of brightness."""
    image = torch.rand(n, 3, 1, 1, device=device).expand(n, 3, *size).clone()
    for cells in (3, 8, 24, 64):
        strength = uniform(n, 0, 0.16, device)[:, None, None, None]
        image += smooth_noise(n, 1, cells, size, device) * strength
        image += smooth_noise(n, 3, cells, size, device) * strength * 0.5
    return image.clamp(0, 1)


def _other_ground(picture, animal, empty):
    """Sets some animals on another ground: an empty tray's or leaf's photo, or a surface made up."""
    n, device = len(picture), picture.device
    chosen = torch.nonzero(chance(n, 0.2, device))[:, 0]
    if len(chosen) == 0:
        return picture
    ground = texture(len(chosen), SIZE, device)
    if len(empty) > 0:
        photo = F.interpolate(empty, size=(INPUT, INPUT), mode="bilinear", align_corners=False)
        photo = photo[torch.randint(0, len(photo), (len(chosen),), device=device)]
        ground = torch.where(chance(len(chosen), 0.5, device)[:, None, None, None], photo, ground)
    mask = F.avg_pool2d(animal[chosen], 3, 1, 1)
    picture = picture.clone()
    picture[chosen] = picture[chosen] * mask + ground * (1 - mask)
    return picture


def _shapes(n, device):
    """Masks (n, 1, 256, 256) of bars, ellipses and blobs, anywhere."""
    line = (torch.arange(INPUT, device=device) + 0.5) / INPUT * 2 - 1
    y, x = torch.meshgrid(line, line, indexing="ij")
    at = uniform(2 * n, -0.9, 0.9, device).reshape(2, n, 1, 1)
    angle = uniform(n, 0, math.pi, device)[:, None, None]
    along = (x - at[0]) * torch.cos(angle) + (y - at[1]) * torch.sin(angle)
    across = (y - at[1]) * torch.cos(angle) - (x - at[0]) * torch.sin(angle)
    long = uniform(n, 0.05, 0.9, device)[:, None, None]
    wide = uniform(n, 0.02, 0.2, device)[:, None, None]
    wobble = smooth_noise(n, 1, 8, SIZE, device)[:, 0] * 0.15
    ellipse = (along / long) ** 2 + (across / wide) ** 2 + wobble < 1
    bar = ((along / long).abs() + wobble < 1) & ((across / wide).abs() + wobble < 1)
    return torch.where(chance(n, 0.5, device)[:, None, None], ellipse, bar).float()[:, None]


def _cover(picture, truth):
    """Lays objects and glare over some pictures; what they hide is no longer clear."""
    n, device = len(picture), picture.device
    hidden = torch.zeros(n, 1, INPUT, INPUT, device=device)
    for p in (0.3, 0.2):
        mask = _shapes(n, device) * chance(n, p, device)[:, None, None, None]
        cover = texture(n, SIZE, device)
        cover = torch.where(chance(n, 0.25, device)[:, None, None, None], picture.flip(0), cover)
        picture = picture * (1 - mask) + cover * mask
        hidden = torch.maximum(hidden, mask)
    cells = smooth_noise(n, 1, 12, SIZE, device) + 0.5 * smooth_noise(n, 1, 40, SIZE, device)
    glare = torch.sigmoid((cells - uniform(n, 1.8, 3.0, device)[:, None, None, None]) * 6)
    glare = glare * chance(n, 0.2, device)[:, None, None, None]
    picture = picture + (1 - picture) * glare
    hidden = torch.maximum(hidden, (glare > 0.6).float())
    truth["clear"] = truth["clear"] * (1 - F.avg_pool2d(hidden, 2)[:, 0])
    return picture


_YIQ = ((0.299, 0.587, 0.114), (0.596, -0.274, -0.322), (0.211, -0.523, 0.312))
_RGB = torch.linalg.inv(torch.tensor(_YIQ))


def recolour(x):
    """Light, white balance, camera curve and saturation, anything from faithful to outlandish."""
    n, device = len(x), x.device
    each = (n, 1, 1, 1)
    strength = uniform(n, 0, 1, device).reshape(each)
    x = x * torch.exp(smooth_noise(n, 1, 3, x.shape[-2:], device) * 0.35 * strength * chance(n, 0.5, device).reshape(each))
    x = x * torch.exp(torch.randn(n, 3, 1, 1, device=device) * 0.2 * strength)
    x = x * torch.exp(torch.randn(each, device=device) * 0.3 * strength)
    x = x.clamp(1e-4, 1) ** torch.exp(torch.randn(each, device=device) * 0.3 * strength)
    yiq = torch.tensor(_YIQ, device=device)
    chroma = torch.einsum("ij,njhw->nihw", yiq, x)
    angle = torch.randn(n, device=device) * 0.25 * strength.flatten() + chance(n, 0.03, device) * uniform(n, 0, 6.28, device)
    turn = torch.zeros(n, 3, 3, device=device)
    turn[:, 0, 0] = 1
    turn[:, 1:, 1:] = _turn(angle) * (torch.exp(torch.randn(n, device=device) * 0.35) * ~chance(n, 0.07, device))[:, None, None]
    x = torch.einsum("nij,njhw->nihw", _RGB.to(device) @ turn, chroma)
    middle = x.mean((1, 2, 3), keepdim=True)
    return (x - middle) * torch.exp(torch.randn(each, device=device) * 0.2 * strength) + middle


def blur(x):
    """Out of focus or shaken: one kernel a batch, on three tenths of its pictures, drawn anew each time."""
    n, device = len(x), x.device
    radius = 7  # one shape for all, so that the fastest convolution is looked for only once
    sigma = float(torch.rand(()) * 2.2 + 0.4)
    at = torch.arange(-radius, radius + 1, device=device, dtype=torch.float32)
    kernel = torch.exp(-0.5 * (at / sigma) ** 2)
    kernel = kernel / kernel.sum()
    chosen = torch.randperm(n, device=device)[:max(1, (3 * n) // 10)]
    part = x[chosen].contiguous().reshape(-1, 1, *x.shape[-2:])
    shake = float(torch.rand(()))  # one way only, or both
    if shake > 0.25:
        part = F.conv2d(F.pad(part, (radius, radius, 0, 0), mode="replicate"), kernel.reshape(1, 1, 1, -1))
    if shake < 0.25 or shake > 0.5:
        part = F.conv2d(F.pad(part, (0, 0, radius, radius), mode="replicate"), kernel.reshape(1, 1, -1, 1))
    x = x.clone()
    x[chosen] = part.reshape(-1, 3, *x.shape[-2:])
    return x


def _compress(x):
    """Rounds the 8 x 8 cosine transform, as JPEG does, on some pictures."""
    n, device = len(x), x.device
    chosen = torch.nonzero(chance(n, 0.2, device))[:, 0]
    if len(chosen) == 0:
        return x
    k = torch.arange(8, device=device, dtype=torch.float32)
    cosine = torch.cos(math.pi * (k[None] + 0.5) * k[:, None] / 8) * math.sqrt(2 / 8)
    cosine[0] /= math.sqrt(2)
    high, wide = x.shape[-2:]
    blocks = x[chosen].reshape(len(chosen), 3, high // 8, 8, wide // 8, 8)
    spectrum = torch.einsum("ab,nchbwd,ed->nchawe", cosine, blocks, cosine)
    step = (0.03 + 0.03 * (k[:, None] + k[None])).reshape(1, 1, 1, 8, 1, 8)
    step = step * uniform(len(chosen), 0.1, 1.5, device).reshape(-1, 1, 1, 1, 1, 1)
    spectrum = torch.round(spectrum / step) * step
    x = x.clone()
    x[chosen] = torch.einsum("ab,nchawe,ed->nchbwd", cosine, spectrum, cosine).reshape(len(chosen), 3, high, wide)
    return x


def photograph(x):
    """What camera and light do to the picture."""
    n, device = len(x), x.device
    x = blur(recolour(x))
    strength = (uniform(n, 0, 0.06, device) * chance(n, 0.6, device))[:, None, None, None]
    x = x + torch.randn_like(x) * strength
    x = x + F.interpolate(torch.randn(n, 3, x.shape[2] // 2, x.shape[3] // 2, device=device),
                          scale_factor=2.0, mode="nearest") * strength * 0.5
    return _compress(x)
