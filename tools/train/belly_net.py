"""The belly network: a photo in, belly and body coordinates out, small enough for one processor core.

Input   1 x 3 x 256 x 256 float, RGB in [0, 1]; the photo letterboxed, padding 0.5.
Output  1 x 11 x 128 x 128 float, planes as in PLANES below.

An encoder-decoder of plain convolutions. Four strided steps bring the picture down to 8 x 8, where residual
blocks see all of it at once: head and vent can only be told apart by looking at the whole animal. OpenCV 4.6
reads the exported file; depthwise convolutions are slow there and batch norms that share their values are
refused, so there are none of the former, and the latter are folded into the convolutions before export.
"""

import copy
import inspect

import torch
from torch import nn
import torch.nn.functional as F

INPUT = 256
OUTPUT = 128
PLANES = ("belly", "animal", "clear", "u", "v", "log_scale", "small_kind", "head", "fore_limb", "hind_limb", "tail")


class ConvNorm(nn.Module):
    """Convolution, batch norm and, unless told otherwise, a rectifier."""

    def __init__(self, inputs, outputs, kernel=3, stride=1, dilation=1, active=True):
        super().__init__()
        self.conv = nn.Conv2d(inputs, outputs, kernel, stride, kernel // 2 * dilation, dilation, bias=False)
        self.norm = nn.BatchNorm2d(outputs)
        nn.init.normal_(self.norm.bias, std=0.01)  # equal values would be exported as one shared node
        self.active = active

    def forward(self, x):
        x = self.norm(self.conv(x))
        return F.relu(x) if self.active else x


class Residual(nn.Module):
    """Two 3 x 3 convolutions, the second `dilation` pixels wide, beside a way past them."""

    def __init__(self, channels, dilation=1):
        super().__init__()
        self.first = ConvNorm(channels, channels)
        self.second = ConvNorm(channels, channels, dilation=dilation, active=False)

    def forward(self, x):
        return F.relu(x + self.second(self.first(x)))


class Up(nn.Module):
    """Doubles the grid, joins what the encoder saw there, and mixes both."""

    def __init__(self, below, beside, outputs):
        super().__init__()
        self.narrow = ConvNorm(below, outputs, kernel=1)
        self.mix = ConvNorm(outputs + beside, outputs)

    def forward(self, below, beside):
        below = F.interpolate(self.narrow(below), scale_factor=2.0, mode="nearest")
        return self.mix(torch.cat([below, beside], 1))


class BellyNet(nn.Module):
    """`widths`: channels at 128, 64, 32, 16 and 8 pixels across; `depths`: residual blocks at 64, 32, 16, 8."""

    def __init__(self, widths=(16, 32, 64, 96, 112), depths=(1, 2, 4, 4)):
        super().__init__()
        w128, w64, w32, w16, w8 = widths
        self.stem = ConvNorm(3, w128, stride=2)
        self.down64 = self._down(w128, w64, depths[0])
        self.down32 = self._down(w64, w32, depths[1])
        self.down16 = self._down(w32, w16, depths[2])
        self.down8 = self._down(w16, w8, depths[3])
        self.up16 = Up(w8, w16, w16)
        self.up32 = Up(w16, w32, w32)
        self.up64 = Up(w32, w64, w64)
        self.up128 = Up(w64, w128, w128)
        self.head = nn.Conv2d(w128, len(PLANES), 1)

    @staticmethod
    def _down(inputs, outputs, blocks):
        more = [Residual(outputs, 1 + i % 2) for i in range(blocks)]
        return nn.Sequential(ConvNorm(inputs, outputs, stride=2), *more)

    def features(self, x):
        x128 = self.stem(x)
        x64 = self.down64(x128)
        x32 = self.down32(x64)
        x16 = self.down16(x32)
        y = self.down8(x16)
        y = self.up16(y, x16)
        y = self.up32(y, x32)
        y = self.up64(y, x64)
        return self.up128(y, x128)

    def forward(self, x):
        return self.head(self.features(x))


def folded(net):
    """A copy of `net` whose batch norms have become part of the convolutions before them; once is enough."""
    net = copy.deepcopy(net).float().cpu().eval()
    for module in net.modules():
        if isinstance(module, ConvNorm) and not isinstance(module.norm, nn.Identity):
            conv, norm = module.conv, module.norm
            gain = norm.weight / torch.sqrt(norm.running_var + norm.eps)
            joined = nn.Conv2d(conv.in_channels, conv.out_channels, conv.kernel_size, conv.stride, conv.padding,
                               conv.dilation)
            joined.weight.data = (conv.weight * gain[:, None, None, None]).detach()
            joined.bias.data = (norm.bias - norm.running_mean * gain).detach()
            module.conv, module.norm = joined, nn.Identity()
    return net


def export(net, path, inputs=(1, 3, INPUT, INPUT)):
    """Writes `net` as ONNX, opset 11, static shape, and returns the folded network that was written."""
    plain = folded(net)
    options = {"dynamo": False} if "dynamo" in inspect.signature(torch.onnx.export).parameters else {}
    torch.onnx.export(plain, torch.rand(inputs), str(path), opset_version=11, input_names=["photo"],
                      output_names=["planes"], **options)
    return plain


@torch.no_grad()
def take_over(net, path, pictures):
    """Starts `net` from an exported network of the same widths, though its norms were folded away.

    What the file has no weights for begins as nothing: residual blocks that add zero, planes that are zero.
    `pictures` set the norms' statistics, so that the network gives what the exported one did.
    """
    import onnx
    from onnx import numpy_helper
    stored = {i.name: torch.from_numpy(numpy_helper.to_array(i).copy())
              for i in onnx.load(str(path)).graph.initializer}
    for name, module in net.named_modules():
        if isinstance(module, ConvNorm) and name + ".conv.weight" in stored:
            module.conv.weight.copy_(stored[name + ".conv.weight"])
        elif isinstance(module, nn.Conv2d) and module.bias is not None and name != "head" and name + ".weight" in stored:
            module.weight.copy_(stored[name + ".weight"])
            module.bias.copy_(stored[name + ".bias"])
    for name, module in net.named_modules():
        if isinstance(module, Residual) and name + ".first.conv.weight" not in stored:
            module.second.norm.weight.zero_()
            module.second.norm.bias.zero_()
    known = len(stored["head.weight"])
    net.head.weight[:known] = stored["head.weight"]
    net.head.bias[:known] = stored["head.bias"]
    net.head.weight[known:] = 0
    net.head.bias[known:] = 0

    def settle(name):
        def hook(norm, inputs):
            x = inputs[0].float()
            mean, variance = x.mean((0, 2, 3)), x.var((0, 2, 3), unbiased=False)
            norm.running_mean.copy_(mean)
            norm.running_var.copy_(variance)
            if name + ".conv.bias" in stored:
                norm.weight.copy_(torch.sqrt(variance + norm.eps))
                norm.bias.copy_(stored[name + ".conv.bias"].to(mean) + mean)
        return hook

    hooks = [module.norm.register_forward_pre_hook(settle(name)) for name, module in net.named_modules()
             if isinstance(module, ConvNorm)]
    net.eval()
    net(pictures)
    net.train()
    for hook in hooks:
        hook.remove()


def cost(net, inputs=(1, 3, INPUT, INPUT)):
    """Weights, and multiply-adds for one picture."""
    total = [0]

    def count(module, _, output):
        kernel = module.weight.shape[1] * module.weight.shape[2] * module.weight.shape[3]
        total[0] += output.shape[1] * output.shape[2] * output.shape[3] * kernel

    plain = folded(net)
    for module in plain.modules():
        if isinstance(module, nn.Conv2d):
            module.register_forward_hook(count)
    with torch.no_grad():
        plain(torch.rand(inputs))
    return sum(p.numel() for p in plain.parameters()), total[0]
