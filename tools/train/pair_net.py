"""A small network that judges two aligned spot maps: one animal or two?

Input   1 x 4 x 128 x 40: the earlier map (probability dark minus 0.5, times weight; weight), then the later one
        drawn onto it, likewise.
Output  1 x 1, logit at even odds: the natural logarithm of the likelihood ratio.
"""

import torch
import torch.nn.functional as F
from torch import nn

from belly_net import ConvNorm, Residual

ROWS, COLUMNS = 128, 40
PLANES = 4


class PairNet(nn.Module):
    """Looks for agreement and contradiction piece by piece, and takes the mean over the belly: a pattern is told by
    many small things, wherever they lie."""

    def __init__(self, widths=(24, 40, 56)):
        super().__init__()
        layers, before = [], PLANES
        for width in widths:
            layers += [ConvNorm(before, width, stride=2), Residual(width)]
            before = width
        self.body = nn.Sequential(*layers, Residual(before))
        self.mix = nn.Conv2d(before, 32, 1)
        self.head = nn.Conv2d(32, 1, 1)

    def forward(self, x):
        y = F.avg_pool2d(self.body(x), (ROWS // 8, COLUMNS // 8))
        return self.head(F.relu(self.mix(y))).flatten(1)


def ratio_cost(logit, same, weight, priors=(0.5, 0.05, 0.005, 0.0005)):
    """Cost of acting on the ratios, relative to knowing only the prior, in the mean over priors.

    Brümmer & du Preez 2006, Computer Speech and Language 20:230; `weight` says how many pairs each stands for.
    """
    total = 0.0
    for prior in priors:
        at = logit + torch.logit(torch.tensor(prior)).item()
        own = (F.softplus(-at) * weight * same).sum() / (weight * same).sum().clamp_min(1e-6)
        other = (F.softplus(at) * weight * (1 - same)).sum() / (weight * (1 - same)).sum().clamp_min(1e-6)
        entropy = -(prior * torch.log(torch.tensor(prior)) + (1 - prior) * torch.log(torch.tensor(1 - prior))).item()
        total = total + (prior * own + (1 - prior) * other) / entropy
    return total / len(priors)
