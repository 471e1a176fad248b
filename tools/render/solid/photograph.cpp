#include <stdexcept>

#include "tools/render/solid/film.h"
#include "tools/render/solid/photographer.h"
#include "tools/render/solid/solid_world.h"

namespace evet::render::solid {

Photographer::Photographer(const CaptureSpec& spec, bool look_alike)
    : spec_(spec),
      dice_(Dice::blended(Dice::blended(Dice::blended(0x50711D, spec.world_seed), spec.individual),
                          0x1000 + spec.capture + (look_alike ? 0x100000000ULL : 0))),
      plan_(draw_plan(spec, dice_.apart(kPlan))),
      animal_(make_animal(spec.world_seed, spec.individual, spec.conditions, look_alike)) {
  Dice wild = dice_.apart(kWild);
  if (plan_.wild) make_wild(animal_, wild.apart(1));
  // A season's and a meal's difference in colour.
  animal_.paints.ground *= Colour(1, wild.between(0.85, 1.1), wild.between(0.7, 1.2));
  animal_.paints.dark *= wild.between(0.8, 1.3);
}

void Photographer::choose_subject() {
  Dice dice = dice_.apart(kKind);
  state_.years = static_cast<float>(spec_.years);
  state_.wet = plan_.gloss * (dice.odds(0.3) ? dice.between(0, 0.4) : 1);
  state_.seed = dice.bits();
  switch (spec_.subject) {
    case Subject::belly:
    case Subject::blurred:
      break;
    case Subject::back:
      state_.back = true;
      if (dice.odds(0.12)) make_other_kind(animal_, Kind::salamander, dice);
      break;
    case Subject::small_newt:
      make_other_kind(animal_, Kind::small_newt, dice);
      animal_.pattern = grow_pattern("many-fine", animal_.pattern.half_skin, dice.apart(1), dice.apart(2));
      animal_.pattern.distance += dice.odds(0.6) ? dice.between(0.002, 0.01) : 0.1F;  // small dots or none
      break;
    case Subject::empty_tray:
      has_animal_ = false;
      break;
    case Subject::leaf:
      counts_as_animal_ = false;
      if (dice.odds(0.3)) {
        make_other_kind(animal_, Kind::frog, dice);
        state_.back = dice.odds(0.6);
      } else if (dice.odds(0.2)) {
        make_other_kind(animal_, Kind::fish, dice);
      } else {
        has_animal_ = false;
      }
  }
  counts_as_animal_ = counts_as_animal_ && has_animal_;
  if (!shows_belly(spec_.subject)) plan_.cut_share = 0;
}

float Photographer::height_over(const Flat& place) const {
  Touch touch;
  return scenery_.trunk.meet(Point(place[0], place[1], 5), Point(0, 0, -1), touch) ? touch.at[2] : -1;
}

void Photographer::add_eyes() {
  Dice dice = dice_.apart(kBody).apart(5);
  const float l = animal_.build.head_length, u = -dice.between(0.5, 0.66) * l,
              r = l * dice.between(0.06, 0.1);
  const float s = state_.back ? 0.3F : dice.between(0.55, 0.68);
  for (const float side : {-1.0F, 1.0F}) {
    const Point at = body_->at(u, side * s);
    Mesh eye =
        tube({{at - Point(0, 0, 0.02F * r), 0.96F * r, 1}, {at + Point(0, 0, 0.02F * r), 0.96F * r, 1}}, 12,
             Point(0, 1, 0));
    eye.part = Part::head;
    eye.look = eye_look(animal_);
    scenery_.limbs.add(std::move(eye));
  }
}

void Photographer::pose() {
  const bool on_glass = plan_.setting == "clear-tray" || plan_.setting == "clear-tray-lid";
  posture_ = draw_posture(plan_, on_glass, dice_.apart(kPosture));
  body_.emplace(animal_, posture_, dice_.apart(kBody));
  float turn = posture_.turn;
  lens_.emplace(frame(*body_, plan_, limits_of(spec_.conditions), spec_.size, turn, dice_.apart(kFrame)));
  posture_.turn = turn;
  if (on_glass) state_.contact_height = kPane;
  if (has_animal_) {
    Mesh trunk = body_->trunk();
    trunk.look = trunk_look(animal_, state_);
    scenery_.trunk.add(std::move(trunk));
  }
  scenery_.trunk.build();
}

void Photographer::light_and_ground() {
  scenery_.lighting = draw_lighting(plan_.lighting, lens_->eye(), plan_.wild, dice_.apart(kLight));
  scenery_.ground = draw_ground(plan_.setting, animal_.paints.ground, plan_.wild, dice_.apart(kGround));
  if (!posture_.on_glass) return;
  Dice dice = dice_.apart(kPane);
  ClearPane pane;
  pane.height = kPane;
  pane.seed = dice.bits();
  pane.drops = plan_.covered > 0 && dice.odds(0.6) ? dice.between(0, 0.5) * plan_.gloss : 0;
  pane.drop_pitch = dice.between(0.04, 0.16);
  pane.haze = dice.odds(0.5) ? dice.between(0, 0.06) : 0;
  pane.mirror = dice.between(0.1, 0.5 + plan_.gloss);
  scenery_.pane = pane;
}

std::vector<Mesh> Photographer::things_that_stay() {
  std::vector<Mesh> fixed;
  if (in_hand())
    fixed = hand_below(hand_, dice_.apart(kHand).apart(1));
  else
    fixed =
        things_beside(*body_, plan_, posture_.on_glass ? scenery_.ground.level : 0.0F, dice_.apart(kBeside));
  if (spec_.subject == Subject::leaf && !has_animal_)
    for (Mesh& mesh : things_instead(hand_, dice_.apart(kInstead))) fixed.push_back(std::move(mesh));
  return fixed;
}

std::vector<Mesh> Photographer::things_that_cover(Dice& over) {
  const auto height = [this](const Flat& p) { return height_over(p); };
  std::vector<Mesh> extra = things_over(*body_, plan_, height, hand_, over.apart(1));
  if (plan_.setting == "fingers" || (in_hand() && over.odds(0.5))) {
    // Held at the tail, the head or the flank, off the belly.
    const float u = over.odds(0.5) ? over.between(1.15, 1.5) : over.between(-0.2, -0.05);
    const float end = std::min(u, body_->last_u() - 0.05F), side = over.side();
    const Point tip = body_->spine(end) + body_->side(end) * (0.3F * side * body_->half_width());
    const Point from = tip + body_->side(end) * side + body_->along(end) * (u > 1 ? 0.7F : -0.7F);
    extra.insert(extra.begin(), finger_to(hand_, {tip[0], tip[1]}, 0.1F, {from[0], from[1]}, over.apart(2)));
  }
  if (plan_.covered > 0 && !posture_.on_glass && over.odds(0.12)) {
    Net net;
    net.height = 0.42F;
    net.pitch = over.between(0.05, 0.16);
    net.thread = over.between(0.05, 0.1);
    net.turn = over.between(0, kPi);
    net.colour = over.odds(0.6) ? paint(over.between(80, 170), over.between(0.2, 0.8), over.between(0.3, 0.8))
                                : Colour::Constant(over.between(0.02, 0.8));
    scenery_.net = net;
  }
  return extra;
}

void Photographer::set_up(int across, const std::vector<Mesh>& fixed, const std::vector<Mesh>& extra,
                          std::size_t kept) {
  scenery_.limbs.clear();
  scenery_.things.clear();
  if (has_animal_) {
    Mesh tail = body_->tail();
    tail.look = trunk_look(animal_, state_);
    scenery_.limbs.add(std::move(tail));
    add_eyes();
    const auto height = [this](const Flat& p) { return height_over(p); };
    for (Mesh& mesh : limbs_of(animal_, *body_, posture_, plan_, across, height, dice_.apart(kLimbs))) {
      mesh.look = limb_look(animal_, state_);
      scenery_.limbs.add(std::move(mesh));
    }
  }
  for (const Mesh& mesh : fixed) scenery_.things.add(mesh);
  for (std::size_t i = 0; i < kept; ++i) scenery_.things.add(extra[i]);
  scenery_.limbs.build();
  scenery_.things.build();
}

// As much over the belly as the allowance bears: limbs first, then things.
void Photographer::lay_things() {
  Dice dice = dice_.apart(kHand);
  hand_ = draw_hand(plan_.setting == "glove" || (plan_.setting == "fingers" && dice.odds(0.5)), plan_.wild,
                    dice.apart(2));
  light_and_ground();
  const std::vector<Mesh> fixed = things_that_stay();
  Dice over = dice_.apart(kOver);
  int across = plan_.covered > 0 ? over.below(4) : 0;
  std::vector<Mesh> extra;
  if (has_animal_) extra = things_that_cover(over);
  for (std::size_t kept = extra.size();;) {
    set_up(across, fixed, extra, kept);
    if (!has_animal_ || share_covered() <= plan_.covered) return;
    // The last thing goes first, then the net, then limb by limb.
    if (kept > 0)
      --kept;
    else if (scenery_.net)
      scenery_.net.reset();
    else if (across > 0)
      --across;
    else
      return;
  }
}

void Photographer::trace() {
  scenery_.measure_openness(8, dice_.apart(kOpen));
  const int longest = std::max(spec_.size.width, spec_.size.height), samples = longest <= 500 ? 3 : 2;
  const std::uint32_t seed = dice_.apart(kRays).bits();
  light_.create(spec_.size);
  glare_.create(spec_.size);
  for (int y = 0; y < spec_.size.height; ++y)
    for (int x = 0; x < spec_.size.width; ++x) {
      Seen sum;
      for (int k = 0; k < samples; ++k) {
        // Spread over the pixel: one sample to each of as many strips, in both directions.
        Spread spread(x, y, k, seed);
        const float n = static_cast<float>(samples), across = (static_cast<float>(k) + spread.next()) / n,
                    down = (static_cast<float>((k * 2 + 1) % samples) + spread.next()) / n;
        const Seen one = scenery_.look(
            lens_->eye(), lens_->way_of({static_cast<float>(x) + across, static_cast<float>(y) + down}),
            spread);
        sum.light += one.light;
        sum.mirrored += one.mirrored;
      }
      sum.light /= static_cast<float>(samples);
      light_(y, x) = {sum.light[0], sum.light[1], sum.light[2]};
      glare_(y, x) = sum.mirrored / static_cast<float>(samples);
    }
}

RenderedPhoto Photographer::shoot() {
  choose_subject();
  pose();
  lay_things();
  fill_truth();
  trace();
  const float exposure = draw_exposure(light_, photo_.truth.animal, plan_.wild, dice_.apart(kFilm).apart(1));
  // Where the mirrored light alone comes near white, the skin is not read.
  const float limit = 0.42F / exposure;
  Truth& t = photo_.truth;
  if (spec_.subject == Subject::belly)
    for (int y = 0; y < spec_.size.height; ++y)
      for (int x = 0; x < spec_.size.width; ++x)
        if (t.belly(y, x) && !covered_(y, x) && glare_(y, x) < limit) t.clear(y, x) = 255;
  Colour lamps = scenery_.lighting.zenith;
  for (const Lamp& lamp : scenery_.lighting.lamps) lamps += lamp.power;
  photo_.bgr = develop_film(light_, exposure, plan_, lamps, dice_.apart(kFilm).apart(2));
  return std::move(photo_);
}

RenderedPhoto photograph(const CaptureSpec& spec, bool look_alike) {
  spec.conditions.check();
  if (spec.conditions.foreign)
    throw std::invalid_argument("foreign conditions are the drawn world's; the solid world has none");
  return Photographer(spec, look_alike).shoot();
}

cv::Mat1b pattern_of(std::uint64_t world_seed, std::uint32_t individual, double years, cv::Size canvas,
                     const Conditions& conditions) {
  const Pattern pattern = make_animal(world_seed, individual, conditions).pattern;
  cv::Mat1b dark(canvas);
  for (int r = 0; r < dark.rows; ++r)
    for (int c = 0; c < dark.cols; ++c) {
      const float u = (static_cast<float>(r) + 0.5F) / static_cast<float>(dark.rows),
                  v = (static_cast<float>(c) + 0.5F) / static_cast<float>(dark.cols) * 2 - 1;
      dark(r, c) = pattern.edge_distance(u, v, static_cast<float>(years)) < 0 ? 255 : 0;
    }
  return dark;
}

}  // namespace evet::render::solid
