"""Two small networks on straightened bellies, on the frame of the spot map (256 rows, 80 columns).

SpotNet   1 x 3 x 256 x 80 (RGB in [0, 1], 0.5 where nothing was seen)
          -> 1 x 2 x 256 x 80, logits that the skin is dark, and that it is skin plainly seen.
EmbedNet  1 x 2 x 256 x 80 (probability dark minus 0.5, 0 where unknown; 1 where known, else 0)
          -> 1 x 128, not yet of unit length; the cosine of two says how alike the patterns are.
"""

import torch
import torch.nn.functional as F
from torch import nn

from belly_net import ConvNorm, Residual, Up

ROWS, COLUMNS = 256, 80
DESCRIPTOR = 128


class SpotNet(nn.Module):
    def __init__(self, widths=(12, 24, 32, 48)):
        super().__init__()
        a, b, c, d = widths
        self.stem = nn.Sequential(ConvNorm(3, a), ConvNorm(a, a))
        self.down2 = nn.Sequential(ConvNorm(a, b, stride=2), ConvNorm(b, b))
        self.down4 = nn.Sequential(ConvNorm(b, c, stride=2), Residual(c))
        self.down8 = nn.Sequential(ConvNorm(c, d, stride=2), Residual(d), Residual(d, 2))
        self.up4 = Up(d, c, c)
        self.up2 = Up(c, b, b)
        self.up1 = Up(b, a, a)
        self.head = nn.Conv2d(a, 2, 1)

    def forward(self, x):
        x1 = self.stem(x)
        x2 = self.down2(x1)
        x4 = self.down4(x2)
        y = self.up4(self.down8(x4), x4)
        return self.head(self.up1(self.up2(y, x2), x1))


class EmbedNet(nn.Module):
    """Ends in a layer that knows where on the belly a feature lies: patterns differ by place, not by kind."""

    def __init__(self, widths=(24, 40, 64, 96), places=10):
        super().__init__()
        layers, before = [], 2
        for width in widths:
            layers += [ConvNorm(before, width, stride=2), Residual(width)]
            before = width
        layers += [ConvNorm(before, places, kernel=1)]
        self.body = nn.Sequential(*layers)
        self.head = nn.Conv2d(places, DESCRIPTOR, (ROWS // 16, COLUMNS // 16))

    def forward(self, x):
        return self.head(self.body(x)).flatten(1)


def embedding_loss(first, second, scale, margin=0.15):
    """Each animal's second capture must lie nearer to its first than any other animal's, by an angle `margin`."""
    first, second = F.normalize(first, dim=1), F.normalize(second, dim=1)
    cosine = (first @ second.t()).clamp(-0.999, 0.999)
    own = torch.eye(len(first), device=first.device, dtype=torch.bool)
    logits = torch.where(own, torch.cos(torch.acos(cosine) + margin), cosine) * scale
    target = torch.arange(len(first), device=first.device)
    return (F.cross_entropy(logits, target) + F.cross_entropy(logits.t(), target)) / 2
