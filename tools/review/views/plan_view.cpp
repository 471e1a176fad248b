// Surveys drawn of an assumed pond, or of what the catalogue's own nights say: how many nights and traps it takes.
#include <algorithm>
#include <charconv>

#include "matcher/base/error.h"
#include "matcher/catalogue/histories.h"
#include "models/base/input_error.h"
#include "tools/numbers/planned_survey.h"
#include "tools/review/messages.h"
#include "tools/review/views/views.h"
#include "tools/words/in_words.h"
#include "tools/words/numbers_listed.h"
#include "tools/words/text.h"

namespace evet::review {
namespace {

constexpr std::size_t kMostPlans = 60;  // each takes hundreds of estimates

bool read_number(const Call& call, const char* name, double& value) {
  const std::string text = call.query(name);
  if (text.empty()) return false;
  const auto [end, status] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (status != std::errc() || end != text.data() + text.size())
    throw Error(ErrorKind::bad_input, std::string("'") + name + "'",
                Message(messages::kIsNoNumber, {{"text", in_quotes(text)}}));
  return true;
}

// As asked for. What is left empty of numbers and chance is taken from the catalogue's nights.
models::PlanRequest request_in(const Call& call, Given& given) {
  models::PlanRequest plan;
  given.animals = read_number(call, "animals", plan.animals);
  given.chance = read_number(call, "chance", plan.chance);
  read_number(call, "spread", plan.spread);
  read_number(call, "wanted", plan.wanted);
  double traps_now = 1;
  if (read_number(call, "traps_now", traps_now))
    plan.traps_now = static_cast<int>(std::clamp(traps_now, 0.0, 1e6));
  if (const std::string nights = call.query("nights"); !nights.empty())
    plan.nights = numbers_listed("nights", nights);
  if (const std::string traps = call.query("traps"); !traps.empty())
    plan.traps = numbers_listed("traps", traps);
  if (plan.nights.size() * std::max<std::size_t>(1, plan.traps.size()) > kMostPlans)
    throw Error(ErrorKind::too_large, in_words(messages::kThePlan),
                Message(messages::kMoreRowsThan, {{"n", kMostPlans}}), messages::kAskForFewerNightsOrTraps);
  return plan;
}

}  // namespace

Response plan_view(Call& call) {
  Given given;
  models::PlanRequest request = request_in(call, given);
  try {
    if (!given.animals || !given.chance) {
      models::CaptureHistories histories;
      {
        const std::lock_guard lock(call.desk.mutex);
        histories = capture_histories(call.desk.catalogue.statements(), call.desk.catalogue.identities(),
                                      {.site = call.query("site"), .pond = call.query("pond")})
                        .histories;
      }
      take_from_nights(histories, in_words(messages::kTheCatalogue), given, request);
    }
    const models::SurveyPlan plan = models::plan_survey(request, call.desk.threads);
    nlohmann::json out = to_json(plan, request);
    out["draws"] = request.draws;
    out["chart"] = models::plan_chart(plan, request);
    return json_answer(out);
  } catch (const models::InputError& error) {
    throw Error(ErrorKind::bad_input, in_words(messages::kThePlan), error.what());
  }
}

}  // namespace evet::review
