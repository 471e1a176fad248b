"""Makes training looks out of stored samples: where the camera looks, and what light, lens and hands do to it.

All on the device, a batch at a time. `looks` turns samples into network inputs and targets:
  first look   the letterboxed photo, turned, moved, scaled and sheared a little or not at all;
  second look  the belly head up and 50 to 92 % of the frame, as the matcher cuts it after its first look; of what
               shows no belly, a cut along the animal, or anywhere.
Part of the bellies get a made-up skin, part of the other animals too, and some bellies are painted over so that
they are none: what tells them apart must be more than the renderer's own way of drawing either. Bodies are made
slimmer, stouter and uneven, and head, limbs, tail, flanks and vent get made-up looks: which end is the head must not
hang on how one renderer colours or shapes them.
A mirrored look has its v negated: left and right of the skin change places.
"""

import math
import pathlib

import numpy as np
import torch
import torch.nn.functional as F

from belly_net import INPUT, OUTPUT
from shards import ANIMAL, BELLY, CLEAR, KNOWN, MIDLINE, PARTS, SUBJECTS


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


def _animal_frame(flags, side, device):
    """A cut along the longest extent of the animal, either way up; anywhere where there is none."""
    mask = (flags & ANIMAL).ne(0).float()
    n, grid = len(mask), mask.shape[-1]
    line = (torch.arange(grid, device=device) + 0.5) / grid * side
    mass = mask.sum((1, 2)).clamp_min(1)
    x, y = (mask.sum(1) @ line) / mass, (mask.sum(2) @ line) / mass
    dx, dy = line[None] - x[:, None], line[None] - y[:, None]
    xx, yy = (mask.sum(1) * dx * dx).sum(1) / mass, (mask.sum(2) * dy * dy).sum(1) / mass
    xy = (torch.einsum("nyx,nx->ny", mask, dx) * dy).sum(1) / mass
    angle = 0.5 * torch.atan2(2 * xy, xx - yy) + math.pi * chance(n, 0.5, device)
    longest = torch.sqrt((0.5 * (xx + yy) + torch.sqrt((0.25 * (xx - yy) ** 2 + xy ** 2).clamp_min(0))).clamp_min(1))
    none = mask.sum((1, 2)) < 1
    anywhere = torch.rand(n, 2, device=device) * side
    centre = torch.where(none[:, None], anywhere, torch.stack([x, y], 1))
    extent = torch.where(none, uniform(n, 0.3, 0.9, device) * side, longest * uniform(n, 2.0, 4.5, device))
    down = torch.stack([torch.cos(angle), torch.sin(angle)], 1)
    axes = torch.stack([torch.stack([down[:, 1], -down[:, 0]], 1), down], 2)
    return centre, axes * (extent / 2)[:, None, None], extent


def _second_look(flags, facts, side, device):
    n = len(facts)
    centre, axes, extent = belly_frame(facts, uniform(n, 0.5, 0.92, device))
    other, is_belly = _animal_frame(flags, side, device), facts[:, 1] == 0
    centre = torch.where(is_belly[:, None], centre, other[0])
    axes = torch.where(is_belly[:, None, None], axes, other[1])
    extent = torch.where(is_belly, extent, other[2])
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

    Returns the picture, a dict of planes (belly, animal, clear, known: shares in [0, 1]; uv; parts: four planes in the
    order of PARTS), and the first four masks at the picture's size.
    """
    device, side = pictures.device, pictures.shape[-1]
    axes = axes.clone()
    axes[:, :, 0] = torch.where(mirrored[:, None], -axes[:, :, 0], axes[:, :, 0])
    picture_grid, truth_grid = _grids(centre, axes, side, bend, device)
    picture = F.avg_pool2d(_sample(pictures - 0.5, picture_grid), 2) + 0.5
    masks = torch.stack([(flags & bit).ne(0).float() for bit in (BELLY, ANIMAL, CLEAR, KNOWN)], 1)
    parts = torch.stack([(flags >> 4).eq(part).float() for part in PARTS], 1)
    sampled = _sample(torch.cat([masks, uv * masks[:, 3:4], parts], 1), truth_grid)
    fine = sampled[:, :4]
    sampled = F.avg_pool2d(sampled, 2)
    known = sampled[:, 3:4]
    coordinates = sampled[:, 4:6] / known.clamp_min(0.1)
    sign = torch.ones(len(flags), 2, 1, 1, device=device)
    sign[:, 1, 0, 0] = torch.where(mirrored, -1.0, 1.0)
    truth = {"belly": sampled[:, 0], "animal": sampled[:, 1], "clear": sampled[:, 2], "known": known[:, 0],
             "uv": coordinates * sign, "parts": sampled[:, 6:]}
    return picture, truth, fine


def _unevenness(axes, side):
    """Smooth shifts (n, 2, 4, 4) for `warp`, on some: up to about a fourth of a body's width, whatever the frame."""
    n, device = len(axes), axes.device
    strength = uniform(n, 0.01, 0.06, device) * chance(n, 0.5, device)
    frame = axes.square().sum((1, 2)).div(2).sqrt() / (side / 2)
    return torch.randn(n, 2, 4, 4, device=device) * (strength * frame)[:, None, None, None]


def looks(pool, index, second_share=0.6):
    """A batch of training inputs (n, 3, 256, 256) with their truth, freshly disturbed."""
    pictures, flags, uv, facts = pool.take(index)
    n, side, device = len(index), pictures.shape[-1], pictures.device
    centre, axes, plain = _first_look(n, side, 0.35, device)
    second = chance(n, second_share, device)
    centre2, axes2 = _second_look(flags, facts, side, device)
    centre = torch.where(second[:, None], centre2, centre)
    axes = torch.where(second[:, None, None], axes2, axes)
    free = (~plain | second)[:, None, None]
    shear = torch.eye(2, device=device) + free * torch.randn(n, 2, 2, device=device) * 0.05
    shear[:, :, 0] *= torch.exp(torch.randn(n, device=device) * 0.15 * free[:, 0, 0])[:, None]  # slimmer or stouter
    picture, truth, fine = warp(pictures, flags, uv, centre, axes @ shear, chance(n, 0.5, device),
                                _unevenness(axes, side))
    is_small = (facts[:, 1] == SUBJECTS.index("small_newt")).float()[:, None, None]
    truth["small_kind"] = truth["animal"] * is_small
    picture = _other_skin(picture, truth, fine, facts)
    picture = _other_parts(picture, truth, fine)
    picture = _other_vent(picture, truth)
    empty = pictures[torch.nonzero(~((flags & ANIMAL).ne(0).flatten(1).any(1)))[:, 0]]
    picture = _other_ground(picture, truth, fine, empty)
    picture = _nothing_but_ground(picture, truth)
    picture = _cover(picture, truth)
    picture = _end_of_picture(picture, truth)
    return photograph(picture).clamp_(0, 1), truth


def texture(n, size, device):
    """Random surfaces: a colour, with coarse to fine variation of its own and of brightness."""
    image = torch.rand(n, 3, 1, 1, device=device).expand(n, 3, *size).clone()
    plain = chance(n, 0.2, device)  # one colour and no more
    for cells in (3, 8, 24, 64):
        strength = (uniform(n, 0, 0.16, device) * ~plain)[:, None, None, None]
        image += smooth_noise(n, 1, cells, size, device) * strength
        image += smooth_noise(n, 3, cells, size, device) * strength * 0.5
    return image.clamp(0, 1)


def _hsv(hue, saturation, value):
    """Colours (n, 3, 1, 1) from hue in degrees, saturation and value in [0, 1]."""
    k = (torch.tensor([5.0, 3.0, 1.0], device=hue.device) + hue[:, None] / 60) % 6
    part = torch.minimum(torch.minimum(k, 4 - k), torch.ones_like(k)).clamp_min(0)
    return (value[:, None] * (1 - saturation[:, None] * part))[:, :, None, None]


def _marks(n, device):
    """Made-up patterns (n, 1, 256, 256) in [0, 1]: blobs, dots, bars or nets of one size, with edges hard or soft."""
    size = 2.0 ** (3 + 4 * float(torch.rand(())))
    across, along = (int(size * 2.0 ** float(torch.randn(()) * 0.4)) + 2 for _ in range(2))
    field = F.interpolate(torch.randn(n, 1, along, across, device=device), size=SIZE, mode="bicubic", align_corners=False)
    field = torch.where(chance(n, 0.25, device)[:, None, None, None], 0.6 - field.abs() * 1.6, field)  # lines, nets
    level = uniform(n, 0.0, 1.5, device)[:, None, None, None]
    hard = torch.exp(uniform(n, 1.0, 3.5, device))[:, None, None, None]
    return torch.sigmoid((field - level) * hard)


def _other_skin(picture, truth, fine, facts):
    """Paints made-up skins: bellies and small newts' undersides stay what they are, others become or stay backs."""
    n, device = len(picture), picture.device
    subject = facts[:, 1]
    dice = torch.rand(n, device=device)
    is_belly, is_small = subject == 0, subject == SUBJECTS.index("small_newt")
    belly = is_belly & (dice < 0.18)
    back = (is_belly & (dice > 0.94)) | ((subject == SUBJECTS.index("back")) & (dice < 0.5))
    small = is_small & (dice < 0.35)
    chosen = torch.nonzero(belly | back | small)[:, 0]
    if len(chosen) == 0:
        return picture
    m = len(chosen)
    belly, back, small = belly[chosen], back[chosen], small[chosen]
    picture, was = picture.clone(), picture[chosen]
    # Grounds: an underside is bright, most often between yellow and red; a back is drab.
    free = belly & chance(m, 0.35, device)
    hue = torch.where(free, uniform(m, 0, 360, device), torch.where(back, uniform(m, 20, 130, device), uniform(m, 8, 58, device)))
    saturation = torch.where(back, uniform(m, 0.0, 0.6, device), torch.where(small, uniform(m, 0.1, 0.8, device), uniform(m, 0.35, 1.0, device)))
    value = torch.where(back, uniform(m, 0.08, 0.5, device), uniform(m, 0.6, 1.0, device))
    ground = _hsv(hue, saturation, value)
    other = _hsv(hue + 30 * torch.randn(m, device=device), saturation * uniform(m, 0.3, 1.1, device).clamp(0, 1),
                 (value * uniform(m, 0.6, 1.4, device)).clamp(0, 1))
    ink = _hsv(uniform(m, 0, 360, device), uniform(m, 0, 0.6, device),
               torch.where(back, value * uniform(m, 0.4, 1.5, device), value * uniform(m, 0.05, 0.45, device)).clamp(0, 1))
    patches = torch.sigmoid(smooth_noise(m, 1, 12, SIZE, device) * 1.5)
    skin = ground + (other - ground) * patches * (uniform(m, 0, 1, device) * chance(m, 0.7, device))[:, None, None, None]
    marks = _marks(m, device)
    faint = torch.where(back, uniform(m, 0, 0.7, device), uniform(m, 0.75, 1.0, device))
    faint = torch.where(small, torch.zeros(m, device=device), faint)[:, None, None, None]  # a small kind: no spots
    skin = skin + (ink - skin) * marks * faint
    # The light on the old skin falls on the new, or none does: some pictures are drawn flat.
    over = torch.where((belly | small)[:, None, None, None], torch.where(small[:, None, None, None], fine[chosen, 1:2], fine[chosen, 2:3]),
                       fine[chosen, 1:2])
    soft = F.avg_pool2d(was.mean(1, keepdim=True), 31, 1, 15, count_include_pad=False)
    shade = soft / ((soft * over).sum((2, 3), keepdim=True) / over.sum((2, 3), keepdim=True).clamp_min(1)).clamp_min(0.02)
    shade = torch.where(chance(m, 0.3, device)[:, None, None, None], torch.ones_like(shade), shade.clamp(0.4, 1.6))
    strength = over * torch.where(small, uniform(m, 0.4, 0.9, device), torch.ones(m, device=device))[:, None, None, None]
    picture[chosen] = was + (skin * shade - was) * strength
    no_belly = chosen[back]
    for plane in ("belly", "clear", "known"):
        truth[plane][no_belly] = 0
    return picture


def _made_up_coat(picture, belly):
    """Coats (m, 3, 256, 256): of the belly's own colour or any other, plain, patched or marked, dark or pale."""
    m, device = len(picture), picture.device
    mass = belly.sum((2, 3), keepdim=True)
    own = (picture * belly).sum((2, 3), keepdim=True) / mass.clamp_min(1)
    hue, dark = uniform(m, 0, 360, device), chance(m, 0.45, device)
    hue = torch.where(chance(m, 0.6, device), uniform(m, 10, 60, device), hue)
    any_colour = _hsv(hue, uniform(m, 0, 1, device), torch.where(dark, uniform(m, 0.03, 0.35, device), uniform(m, 0.3, 1, device)))
    as_belly = (chance(m, 0.35, device) & (mass.flatten() > 50))[:, None, None, None]
    ground = torch.where(as_belly, own * torch.exp(torch.randn(m, 3, 1, 1, device=device) * 0.12), any_colour)
    other = _hsv(hue + 40 * torch.randn(m, device=device), uniform(m, 0, 0.8, device), uniform(m, 0, 1, device) ** 2)
    faint = (uniform(m, 0.3, 1, device) * chance(m, 0.65, device))[:, None, None, None]
    coat = ground + (other - ground) * _marks(m, device) * faint
    return coat * (1 + 0.12 * smooth_noise(m, 1, 24, SIZE, device))


def _lit(was, coat, mask):
    """`coat` under the light that falls on what it hides."""
    soft = F.avg_pool2d(was.mean(1, keepdim=True), 21, 1, 10, count_include_pad=False)
    mean = (soft * mask).sum((2, 3), keepdim=True) / mask.sum((2, 3), keepdim=True).clamp_min(1)
    return coat * (soft / mean.clamp_min(0.02)).clamp(0.5, 1.5)


def _other_parts(picture, truth, fine):
    """Paints head, limbs, tail and flanks of some bellies anew, each for itself or several alike."""
    n, device = len(picture), picture.device
    shows = truth["belly"].sum((1, 2)) > 30
    chosen = torch.nonzero(chance(n, 0.35, device) & shows)[:, 0]
    if len(chosen) == 0:
        return picture
    picture, was = picture.clone(), picture[chosen]
    m = len(chosen)
    parts = F.interpolate(truth["parts"][chosen], size=SIZE, mode="bilinear", align_corners=False)
    belly = fine[chosen, :1]
    flank = (fine[chosen, 1:2] - belly - parts.sum(1, keepdim=True)).clamp(0, 1)
    regions = (parts[:, :1], parts[:, 1:3].sum(1, keepdim=True).clamp(0, 1), parts[:, 3:], flank)
    shared = _made_up_coat(was, belly)
    now = was
    for region, share in zip(regions, (0.5, 0.5, 0.5, 0.35)):
        alike = chance(m, 0.4, device)[:, None, None, None]
        coat = torch.where(alike, shared, _made_up_coat(was, belly))
        strength = (uniform(m, 0.6, 1, device) * chance(m, share, device))[:, None, None, None]
        now = now + (_lit(was, coat, region) - now) * region * strength
    picture[chosen] = now
    return picture


def _other_vent(picture, truth):
    """Paints the swelling round the vent of some bellies: dark, pale or as the belly, large or small, with a slit or none.

    How it looks differs with sex and season, and from kind to kind.
    """
    n, device = len(picture), picture.device
    chosen = torch.nonzero(chance(n, 0.3, device) & (truth["belly"].sum((1, 2)) > 30))[:, 0]
    if len(chosen) == 0:
        return picture
    m = len(chosen)
    uv = F.interpolate(truth["uv"][chosen], size=SIZE, mode="bilinear", align_corners=False)
    # Known on the trunk alone: the tail begins behind the vent, and its part is known without coordinates.
    trunk = (F.interpolate(truth["known"][chosen][:, None], size=SIZE) > 0.6).float()
    each = (m, 1, 1, 1)
    at, long, wide = (uniform(m, low, high, device).reshape(each) for low, high in ((0.98, 1.03), (0.02, 0.07), (0.15, 0.6)))
    u, v = uv[:, :1], uv[:, 1:]
    blob = torch.exp(-(((u - at) / long) ** 2 + (v / wide) ** 2) ** 2) * trunk
    slit = torch.exp(-((v / 0.05) ** 2 + ((u - at) / (0.8 * long)) ** 2)) * trunk * chance(m, 0.6, device).reshape(each)
    was = picture[chosen]
    colour = _hsv(uniform(m, 0, 50, device), uniform(m, 0.1, 0.9, device), uniform(m, 0, 1, device) ** 1.5)
    shine = 1 + 0.4 * torch.tanh((u - at) / long + v / wide) * uniform(m, -1, 1, device).reshape(each)
    painted = was + (colour * shine - was) * blob * uniform(m, 0.3, 1, device).reshape(each)
    picture = picture.clone()
    picture[chosen] = painted * (1 - 0.7 * slit)
    return picture


class Grounds:
    """Photographs of grounds, if a folder of them is given (fetch_grounds.sh): animals are set on pieces of them."""

    pictures = None  # (n, 3, side, side) bytes

    @classmethod
    def load(cls, folder, device, side=INPUT + 64):
        from PIL import Image
        kept = []
        for path in sorted(pathlib.Path(folder).glob("*.jpg")):
            picture = torch.from_numpy(np.asarray(Image.open(path).convert("RGB")).copy()).permute(2, 0, 1)[None].float()
            edge = min(picture.shape[2:])
            for top in {0, picture.shape[2] - edge}:
                for left in {0, picture.shape[3] - edge}:
                    square = picture[:, :, top:top + edge, left:left + edge]
                    kept.append(F.interpolate(square, size=(side, side), mode="bilinear", align_corners=False).byte())
        if not kept:
            raise ValueError(f"{folder}: no JPEG files of grounds there")
        cls.pictures = torch.cat(kept).to(device)

    @classmethod
    def some(cls, n, device):
        """Pieces (n, 3, 256, 256) of any turn, mirrored, larger or smaller, in a light of their own."""
        which = torch.randint(0, len(cls.pictures), (n,), device=device)
        axes = _turn(uniform(n, 0, 2 * math.pi, device)) * torch.exp(uniform(n, -1.5, 0.2, device))[:, None, None]
        axes[:, :, 0] *= torch.where(chance(n, 0.5, device), 1.0, -1.0)[:, None]
        grid = F.affine_grid(torch.cat([axes, torch.rand(n, 2, 1, device=device) - 0.5], 2), (n, 1, *SIZE), align_corners=False)
        piece = F.grid_sample(cls.pictures[which].float() / 255, grid, padding_mode="reflection", align_corners=False)
        return (piece * torch.exp(torch.randn(n, 3, 1, 1, device=device) * 0.15)).clamp(0, 1)


def _other_ground(picture, truth, fine, empty):
    """Sets some animals on another ground: an empty tray's or leaf's photo, a photographed or a made-up surface.

    Of part of them little but the trunk is kept, so that limbs and head are no crutch.
    """
    n, device = len(picture), picture.device
    chosen = torch.nonzero(chance(n, 0.22, device))[:, 0]
    if len(chosen) == 0:
        return picture
    ground = texture(len(chosen), SIZE, device)
    if len(empty) > 0:
        photo = F.interpolate(empty, size=(INPUT, INPUT), mode="bilinear", align_corners=False)
        photo = photo[torch.randint(0, len(photo), (len(chosen),), device=device)]
        ground = torch.where(chance(len(chosen), 0.5, device)[:, None, None, None], photo, ground)
    if Grounds.pictures is not None:
        real = Grounds.some(len(chosen), device)
        ground = torch.where(chance(len(chosen), 0.5, device)[:, None, None, None], real, ground)
    animal, trunk = fine[chosen, 1:2], fine[chosen, 3:4]
    near_trunk = F.max_pool2d(trunk, 25, 1, 12) * animal
    bare = chance(len(chosen), 0.3, device) & (trunk.sum((1, 2, 3)) > 200)
    mask = F.avg_pool2d(torch.where(bare[:, None, None, None], near_trunk, animal), 3, 1, 1)
    picture = picture.clone()
    picture[chosen] = picture[chosen] * mask + ground * (1 - mask)
    kept = F.avg_pool2d(torch.where(bare[:, None, None, None], near_trunk, animal.new_ones(())), 2)
    truth["parts"][chosen] = truth["parts"][chosen] * kept
    truth["animal"][chosen] = truth["animal"][chosen] * kept[:, 0]
    return picture


def _nothing_but_ground(picture, truth):
    """Puts a photograph of anything in place of a few pictures: where there is no animal, nothing may be found."""
    if Grounds.pictures is None:
        return picture
    chosen = torch.nonzero(chance(len(picture), 0.03, picture.device))[:, 0]
    if len(chosen) == 0:
        return picture
    picture = picture.clone()
    picture[chosen] = Grounds.some(len(chosen), picture.device)
    for plane in truth.values():
        plane[chosen] = 0
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
    for p in (0.35, 0.25):
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


def _end_of_picture(picture, truth):
    """Lets some pictures end within the look, so that throat or vent is cut off; beyond lies the padding's grey."""
    n, device = len(picture), picture.device
    line = (torch.arange(INPUT, device=device) + 0.5) / INPUT * 2 - 1
    y, x = torch.meshgrid(line, line, indexing="ij")
    angle = uniform(n, 0, 2 * math.pi, device)[:, None, None]
    edge = torch.where(chance(n, 0.2, device), uniform(n, 0.3, 0.9, device), torch.full((n,), 9.0, device=device))
    inside = (x * torch.cos(angle) + y * torch.sin(angle) < edge[:, None, None]).float()[:, None]
    kept = F.avg_pool2d(inside, 2)[:, 0]
    for plane in ("belly", "animal", "clear", "known", "small_kind"):
        truth[plane] = truth[plane] * kept
    truth["parts"] = truth["parts"] * kept[:, None]
    return 0.5 + (picture - 0.5) * inside


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


def _coarse_colour(x):
    """Colour kept at a quarter or an eighth of the resolution, as JPEG and phone cameras do; on some pictures."""
    n, device = len(x), x.device
    window = 4 if float(torch.rand(())) < 0.6 else 8
    grey = x.mean(1, keepdim=True)
    chroma = x - grey
    coarse = F.interpolate(F.avg_pool2d(chroma, window), scale_factor=float(window), mode="bilinear", align_corners=False)
    return grey + torch.where(chance(n, 0.25, device)[:, None, None, None], coarse, chroma)


def photograph(x):
    """What camera and light do to the picture."""
    n, device = len(x), x.device
    x = blur(_coarse_colour(recolour(x)))
    strength = (uniform(n, 0, 0.06, device) * chance(n, 0.6, device))[:, None, None, None]
    x = x + torch.randn_like(x) * strength
    x = x + F.interpolate(torch.randn(n, 3, x.shape[2] // 2, x.shape[3] // 2, device=device),
                          scale_factor=2.0, mode="nearest") * strength * 0.5
    return _compress(x)
