"""What the belly network is asked to get right, and how far it does.

The errors of u and v are taken as Laplace distributed; one scale b serves both: b for u, which runs over 1 along
the belly, and 4 b for v, which runs over 2 across it. Plane 5 of the output is log b.
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
    belly_bce = F.binary_cross_entropy_with_logits(planes[:, 0], belly, reduction="none")
    parts = {"belly": (belly_bce * (1 + 2 * bare * animal)).mean() * 2,
             "animal": F.binary_cross_entropy_with_logits(planes[:, 1], animal) * 0.5}
    small = F.binary_cross_entropy_with_logits(planes[:, 6], truth["small_kind"], reduction="none")
    parts["small_kind"] = (small * animal).sum() / (animal.sum() + 50) * 0.2
    p = torch.sigmoid(planes[:, 0])
    overlap = 2 * (p * belly).sum((1, 2)) + 50
    parts["overlap"] = (1 - overlap / (p.sum((1, 2)) + belly.sum((1, 2)) + 50)).mean() * 0.5
    weight = 0.2 + 2 * belly
    clear_bce = F.binary_cross_entropy_with_logits(planes[:, 2], clear, reduction="none")
    parts["clear"] = (clear_bce * weight).sum() / weight.sum()

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

    u, u_true = planes[:, 3], truth["uv"][:, 0]
    along = mean_inside((u - mean_inside(u)[:, None, None]) * (u_true - mean_inside(u_true)[:, None, None]))
    return {"belly_iou": shared(found, belly),
            "clear_iou": shared((torch.sigmoid(planes[:, 2]) > 0.5) & belly, (truth["clear"] > 0.5) & belly),
            "animal_iou": shared(torch.sigmoid(planes[:, 1]) > 0.5, truth["animal"] > 0.5),
            "u_error": mean_inside((u - u_true).abs()),
            "v_error": mean_inside((planes[:, 4] - truth["uv"][:, 1]).abs()),
            "flipped": (along < 0).float(),
            "log_scale": mean_inside(planes[:, 5]),
            "score": p.flatten(1).topk(200, dim=1).values.mean(1),
            "small_kind": (torch.sigmoid(planes[:, 6]) * truth["animal"]).sum((1, 2)) / truth["animal"].sum((1, 2)).clamp_min(1),
            "belly_pixels": belly.sum((1, 2)).float()}
