#include "tools/render/solid/capture_plan.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "tools/render/solid/ground_photos.h"
#include "tools/render/solid/shapes.h"

namespace evet::render::solid {

namespace {

constexpr Limits kGentle = {{0, 20},  {0, 5},   {0.33, 0.52}, 0.10,         20,        0.05,
                            0,        0,        {0.02, 0.4},  {2e-4, 9e-4}, {0, 4e-4}, {0, 0.25},
                            {0, 0.2}, {0, 0.2}, {86, 96}};
constexpr Limits kMiddle = {{2, 50},    {0, 15},     {0.28, 0.62}, 0.25,           180,         0.10,
                            0.15,       0,           {0.1, 0.8},   {3e-4, 1.8e-3}, {0, 1.6e-3}, {0.1, 0.55},
                            {0.1, 0.6}, {0.1, 0.55}, {72, 95}};
constexpr Limits kHardest = {{15, 90},    {4, 28},  {0.25, 0.72}, 0.50,       180,
                             0.15,        0.25,     0.2,          {0.3, 1.2}, {5e-4, 3.2e-3},
                             {0, 3.5e-3}, {0.3, 1}, {0.3, 1},     {0.3, 1},   {50, 93}};
constexpr Limits kWild = {{0, 95},    {0, 30},        {0.22, 0.80}, 0.55,     180,    0.2,      0.3,     0.2,
                          {0.0, 1.4}, {2e-4, 3.5e-3}, {0, 4e-3},    {0, 1.1}, {0, 1}, {0, 1.2}, {40, 97}};

std::string chosen(const std::vector<std::string>& names, const std::vector<std::string>& only,
                   const std::vector<std::string>& without, Dice dice, const char* what) {
  const auto has = [](const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
  };
  for (const auto* list : {&only, &without})
    for (const std::string& name : *list)
      if (!has(names, name))
        throw std::invalid_argument(std::string("no ") + what + " of the solid world is called '" + name +
                                    "'");
  std::vector<std::string> left;
  for (const std::string& name : names)
    if ((only.empty() || has(only, name)) && !has(without, name)) left.push_back(name);
  if (left.empty()) throw std::invalid_argument(std::string("the conditions leave no ") + what);
  return left[static_cast<std::size_t>(dice.below(static_cast<int>(left.size())))];
}

}  // namespace

const Limits& limits_of(const Conditions& conditions) {
  if (conditions.wild) return kWild;
  switch (conditions.difficulty) {
    case Difficulty::gentle:
      return kGentle;
    case Difficulty::middle:
      return kMiddle;
    case Difficulty::hardest:
      break;
  }
  return kHardest;
}

const std::vector<std::string>& setting_names() {
  static const std::vector<std::string> names = {
      "clear-tray",  "clear-tray-lid", "white-tray", "grey-box", "paper",   "squared-paper", "cloth",
      "foam",        "wet-soil",       "gravel",     "moss",     "planks",  "stone",         "lawn",
      "leaf-litter", "bare-hand",      "glove",      "fingers",  "net-bag", "speckled-board"};
  return names;
}

const std::vector<std::string>& lighting_names() {
  static const std::vector<std::string> names = {"cloudy", "sunlit",     "flashgun", "head-torch",
                                                 "ring",   "desk-light", "window",   "mixed"};
  return names;
}

Plan draw_plan(const CaptureSpec& spec, const Dice& dice) {
  const Conditions& c = spec.conditions;
  const Limits& limits = limits_of(c);
  Plan plan;
  plan.wild = c.wild;
  plan.gentle = !c.wild && c.difficulty == Difficulty::gentle;
  plan.setting =
      chosen(setting_names(), c.only_backgrounds, c.without_backgrounds, dice.apart(1), "background");
  plan.lighting = chosen(lighting_names(), c.only_lights, c.without_lights, dice.apart(2), "light");
  Dice own = dice.apart(3);
  plan.bend = limits.bend.draw(own);
  plan.tilt = limits.tilt.draw(own);
  plan.tilt_towards = own.between(0, 2 * kPi);
  plan.length_share = limits.length_share.draw(own);
  plan.roll = own.between(-limits.roll, limits.roll);
  plan.turn = own.between(-limits.turn, limits.turn);
  plan.width_change = own.between(-limits.width_change, limits.width_change);
  plan.covered = own.odds(0.45) ? static_cast<float>(limits.covered) : 0;
  if (own.odds(limits.cut_chance)) {
    plan.cut_share = own.between(0.03, 0.15);
    plan.cut_head = own.odds(0.5);
  }
  plan.gloss = limits.gloss.draw(own);
  // Most pictures are nearer the sharp end.
  const float b = own.unit() * own.unit(), m = own.odds(0.5) ? 0 : own.unit() * own.unit();
  plan.blur = static_cast<float>(limits.blur.low + (limits.blur.high - limits.blur.low) * b);
  plan.motion = static_cast<float>(limits.motion.high) * m;
  plan.noise = limits.noise.draw(own);
  plan.clutter = limits.clutter.draw(own);
  plan.colour_cast = limits.colour_cast.draw(own);
  plan.jpeg_quality = limits.jpeg_quality.draw(own);
  if (spec.subject == Subject::blurred) {
    plan.blur = own.between(0.022, 0.05);
    plan.motion = own.odds(0.5) ? own.between(0.01, 0.05) : 0;
  }
  return plan;
}

}  // namespace evet::render::solid
