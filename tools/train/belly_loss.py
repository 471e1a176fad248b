"""What the belly network is asked to get right, and how far it does.

The errors of u and v are taken as Laplace distributed; one scale b serves both: b for u, which runs over 1 along
the belly, and 4 b for v, which runs over 2 across it. Plane 5 of the output is log b. Planes 7 on say which part
of the body shows: head, limbs and tail tell which way the animal points when the belly does not.
"""

import torch
import torch.nn.functional as F

V_TO_U = 0.25
LOG_SCALE_RANGE = (-6.0, 1.0)


def coordinate_error(planes, uv):
    return (planes[:, 3] - uv[:, 0]).abs() + V_TO_U * (planes[:, 4] - uv[:, 1]).abs()


def belly_loss(planes, truth):
    """A dict of the parts, each a mean over the batch; their sum is to be made small."""
    belly, animal, clear = truth["belly"], truth["animal"], truth["clear"]
    bare = (belly.sum((1, 2)) < 1).float()[:, None, None]  # an animal that shows no belly must not pass for one
    # A small species' underside is a belly all the same: whether it passes for a large newt's is not asked. What
    # kind it is has a plane of its own, so that large newts with few or fine spots are not turned away for theirs.
    asked = 1 - truth["small_kind"]
    belly_bce = F.binary_cross_entropy_with_logits(planes[:, 0], belly, reduction="none")
    parts = {"belly": (belly_bce * (1 + 2 * bare * animal) * asked).mean() * 2,
             "animal": F.binary_cross_entropy_with_logits(planes[:, 1], animal) * 0.5}
    small = F.binary_cross_entropy_with_logits(planes[:, 6], truth["small_kind"], reduction="none")
    parts["small_kind"] = (small * animal).sum() / (animal.sum() + 50) * 0.5
    p = torch.sigmoid(planes[:, 0]) * asked
    overlap = 2 * (p * belly).sum((1, 2)) + 50
    parts["overlap"] = (1 - overlap / (p.sum((1, 2)) + belly.sum((1, 2)) + 50)).mean() * 0.5
    weight = (0.2 + 2 * belly) * asked
    clear_bce = F.binary_cross_entropy_with_logits(planes[:, 2], clear, reduction="none")
    parts["clear"] = (clear_bce * weight).sum() / weight.sum()

    body = F.binary_cross_entropy_with_logits(planes[:, 7:], truth["parts"], reduction="none").mean((0, 2, 3)).sum()
    q = torch.sigmoid(planes[:, 7:])
    shared = 2 * (q * truth["parts"]).sum((2, 3)) + 50
    parts["body_parts"] = body + (1 - shared / (q.sum((2, 3)) + truth["parts"].sum((2, 3)) + 50)).mean() * 0.5

    known = (truth["known"] > 0.6).float()
    weight = known * (0.2 + 0.8 * belly)
    share = weight / (weight.sum((1, 2), keepdim=True) + 50)  # a small belly counts as much as a large one
    error = coordinate_error(planes, truth["uv"])
    log_scale = planes[:, 5].clamp(*LOG_SCALE_RANGE)
    # Weighted by the square root of the scale, so that pixels already sure do not drown the rest.
    nll = (error * torch.exp(-log_scale) + 2 * log_scale) * torch.exp(0.5 * log_scale.detach())
    parts["coordinates"] = (error * share).sum((1, 2)).mean() * 6 + (nll * share).sum((1, 2)).mean()
    return parts


def judge(planes, truth):
    """For each picture: overlap of belly and of clear, mean |u| and |v| errors, head flipped, belly score."""
    p = torch.sigmoid(planes[:, 0])
    found, belly = p > 0.5, truth["belly"] > 0.5
    inside = (belly & (truth["known"] > 0.6)).float()
    pixels = inside.sum((1, 2)).clamp_min(1)

    def mean_inside(x):
        return (x * inside).sum((1, 2)) / pixels

    def shared(a, b):
        return (a & b).sum((1, 2)) / (a | b).sum((1, 2)).clamp_min(1)

    seen_parts = truth["parts"] > 0.5
    part_iou = ((torch.sigmoid(planes[:, 7:]) > 0.5) & seen_parts).sum((2, 3)) / (
        (torch.sigmoid(planes[:, 7:]) > 0.5) | seen_parts).sum((2, 3)).clamp_min(1)
    u, u_true = planes[:, 3], truth["uv"][:, 0]
    along = mean_inside((u - mean_inside(u)[:, None, None]) * (u_true - mean_inside(u_true)[:, None, None]))
    return {"belly_iou": shared(found, belly),
            "clear_iou": shared((torch.sigmoid(planes[:, 2]) > 0.5) & belly, (truth["clear"] > 0.5) & belly),
            "animal_iou": shared(torch.sigmoid(planes[:, 1]) > 0.5, truth["animal"] > 0.5),
            "head_iou": part_iou[:, 0], "tail_iou": part_iou[:, 3],
            "u_error": mean_inside((u - u_true).abs()),
            "v_error": mean_inside((planes[:, 4] - truth["uv"][:, 1]).abs()),
            "flipped": (along < 0).float(),
            "log_scale": mean_inside(planes[:, 5]),
            "score": p.flatten(1).topk(200, dim=1).values.mean(1),
            "small_kind": (torch.sigmoid(planes[:, 6]) * truth["animal"]).sum((1, 2)) / truth["animal"].sum((1, 2)).clamp_min(1),
            "belly_pixels": belly.sum((1, 2)).float()}
