#include <fstream>
#include <memory>
#include <stdexcept>

#include "tools/render/commands.h"
#include "tools/render/contact_sheet.h"
#include "tools/render/jpeg.h"
#include "tools/render/photo_truth.h"

namespace evet::render {

namespace {

struct SheetArguments {
  std::string out = "sheet.jpg", difficulty = "middle", subject = "belly", world = "drawn", each;
  int count = 12, columns = 4, width = 480, height = 360;
  std::uint64_t seed = 1;
  std::uint32_t first = 0;
  double years = 0;
  std::vector<std::string> only_mechanisms, only_backgrounds, only_lights;
  bool wild = false, foreign = false, overlay = false, skins = false, same = false;
};

void make_sheet(const SheetArguments& a) {
  CaptureSpec spec;
  spec.world_seed = a.seed;
  spec.size = {a.width, a.height};
  spec.years = a.years;
  spec.subject = subject_named(a.subject);
  spec.world = world_named(a.world);
  spec.conditions.difficulty = difficulty_named(a.difficulty);
  spec.conditions.wild = a.wild;
  spec.conditions.foreign = a.foreign;
  spec.conditions.only_mechanisms = a.only_mechanisms;
  spec.conditions.only_backgrounds = a.only_backgrounds;
  spec.conditions.only_lights = a.only_lights;
  std::vector<std::string> values;
  if (a.each == "mechanism") values = a.foreign ? foreign_mechanisms() : mechanisms(spec.world);
  if (a.each == "background") values = a.foreign ? foreign_backgrounds() : backgrounds(spec.world);
  if (a.each == "light") values = a.foreign ? foreign_lights() : lights(spec.world);
  const int count = values.empty() ? a.count
                                   : static_cast<int>(values.size()) *
                                         std::max(1, a.count / static_cast<int>(values.size()));
  std::vector<SheetCell> cells;
  for (int i = 0; i < count; ++i) {
    SheetCell cell{spec, {}};
    cell.spec.individual = a.first + static_cast<std::uint32_t>(a.same ? 0 : i);
    cell.spec.capture = static_cast<std::uint32_t>(a.same ? i : 0);
    if (!values.empty()) {
      cell.caption = values[static_cast<std::size_t>(i) * values.size() / static_cast<std::size_t>(count)];
      Conditions& c = cell.spec.conditions;
      (a.each == "mechanism"    ? c.only_mechanisms
       : a.each == "background" ? c.only_backgrounds
                                : c.only_lights) = {cell.caption};
    }
    cells.push_back(cell);
  }
  const std::vector<unsigned char> bytes =
      encode_jpeg(contact_sheet(cells, {a.columns, a.overlay, a.skins}), 90);
  std::ofstream file(a.out, std::ios::binary);
  file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  if (!file) throw std::runtime_error("cannot write " + a.out);
}

}  // namespace

void add_sheet_command(CLI::App& program) {
  CLI::App* command = program.add_subcommand("sheet", "A contact sheet (JPEG) of random captures");
  auto a = std::make_shared<SheetArguments>();
  command->add_option("--out", a->out, "JPEG to write");
  command->add_option("--difficulty", a->difficulty)->check(CLI::IsMember({"gentle", "middle", "hardest"}));
  command->add_option("--subject", a->subject)
      ->check(CLI::IsMember({"belly", "back", "empty_tray", "leaf", "small_newt", "blurred"}));
  command->add_option("--world-kind", a->world, "the way to draw")->check(CLI::IsMember({"drawn", "solid"}));
  command->add_option("--each", a->each, "as many of each")
      ->check(CLI::IsMember({"mechanism", "background", "light"}));
  command->add_option("--count", a->count);
  command->add_option("--columns", a->columns);
  command->add_option("--width", a->width);
  command->add_option("--height", a->height);
  command->add_option("--seed", a->seed);
  command->add_option("--first", a->first, "first individual");
  command->add_option("--years", a->years);
  command->add_option("--mechanism", a->only_mechanisms);
  command->add_option("--background", a->only_backgrounds);
  command->add_option("--light", a->only_lights);
  command->add_flag("--wild", a->wild, "beyond nature");
  command->add_flag("--foreign", a->foreign, "conditions kept back from training");
  command->add_flag("--overlay", a->overlay, "draw the truth over each photo");
  command->add_flag("--skins", a->skins, "unrolled skins instead of photos");
  command->add_flag("--same", a->same, "captures of one individual");
  command->callback([a] { make_sheet(*a); });
}

}  // namespace evet::render
