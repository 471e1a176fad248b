#include "models/ask/model_card.h"

#include <algorithm>

#include "models/ask/messages.h"
#include "models/ask/registry.h"
#include "models/base/input_error.h"
#include "models/base/messages.h"

namespace evet::models {
namespace {

using nlohmann::json;

Message use(const std::vector<std::string>& names) {
  return {messages::kUseOneOf, {{"models", listed(names, messages::kOr)}}};
}

Message is(const json& value) {
  return {messages::kIsValue, {{"value", value.dump()}}};
}

Message like(const MessageText& text, const char* example) {
  return {text, {{"example", example}}};
}

Message of_model(const MessageText& text, const std::string& model) {
  return {text, {{"model", model}}};
}

bool holds(const std::vector<std::string>& list, const std::string& name) {
  return std::find(list.begin(), list.end(), name) != list.end();
}

// Reads what it can and gathers what is wrong, so that a card is put right in one go.
class Reader {
 public:
  ModelCard card(const json& source) {
    ModelCard card;
    if (!source.is_object()) {
      wrong("the card", messages::kIsNoObject, like(messages::kWriteCard, R"({"models": [...]})"));
    } else {
      for (const auto& [key, value] : source.items()) field(card, key, value);
    }
    for (const ModelChoice& choice : card.models) fits_design(card, choice);
    if (wrongs_.empty()) return card;
    std::string lines;
    for (const Complaint& one : wrongs_) lines += "  " + one.words() + "\n";
    throw InputError(messages::kItemModelCard, wrongs_, lines, messages::kNothingFitted);
  }

 private:
  void wrong(const std::string& item, const Message& what, const Message& right) {
    wrongs_.push_back({item, what, right});
  }

  void field(ModelCard& card, const std::string& key, const json& value) {
    if (key == "design") {
      if (value.is_string() && holds({"auto", "closed", "open", "robust"}, value))
        card.design = value;
      else
        wrong("design", {messages::kDesignNotKnown, {{"value", value.dump()}}}, messages::kUseADesign);
    } else if (key == "level") {
      if (value.is_number() && value > 0 && value < 1)
        card.level = value;
      else
        wrong("level", is(value), messages::kGiveLevel);
    } else if (key == "seed") {
      if (value.is_number_unsigned())
        card.seed = value;
      else
        wrong("seed", is(value), messages::kGiveSeed);
    } else if (key == "overdispersion") {
      if (value.is_number() && value >= 1 && value < 1e6)
        card.overdispersion = value;
      else if (value != "measured")
        wrong("overdispersion", is(value), messages::kGiveOverdispersion);
    } else if (key == "survival_per") {
      const std::vector<std::string> known = {"auto", "interval", "day", "week", "month", "year"};
      if (value.is_string() && holds(known, value))
        card.survival_per = value;
      else
        wrong("survival_per", is(value), use(known));
    } else if (key == "bootstrap") {
      if (value.is_number_unsigned() && value <= 10000)
        card.bootstrap = value;
      else
        wrong("bootstrap", is(value), messages::kGiveDraws);
    } else if (key == "models") {
      if (!value.is_array() || value.empty())
        wrong("models", value.is_array() ? messages::kListEmpty : messages::kIsNoList, messages::kListModels);
      else
        for (std::size_t i = 0; i < value.size(); ++i)
          model(card, Message(messages::kEntryOfModels, {{"entry", i + 1}}).words(), value[i]);
    } else {
      wrong("'" + key + "'", messages::kNoFieldOfCard, messages::kUseFieldsOfCard);
    }
  }

  void model(ModelCard& card, const std::string& where, const json& value) {
    ModelChoice choice;
    if (value.is_string()) {
      choice.name = value;
    } else if (value.is_object() && value.contains("model") && value.at("model").is_string()) {
      choice.name = value.at("model");
    } else {
      wrong(where, messages::kNamesNoModel, like(messages::kNameModelLike, R"({"model": "survival", ...})"));
      return;
    }
    const ModelEntry* kind = nullptr;
    std::vector<std::string> names;
    for (const ModelEntry& one : registry()) {
      names.push_back(one.name);
      if (one.name == choice.name) kind = &one;
    }
    if (!kind) {
      wrong(where, of_model(messages::kNamedModelNotKnown, choice.name), use(names));
      return;
    }
    if (value.is_object()) {
      for (const auto& [key, part] : value.items())
        if (key != "model") model_field(choice, *kind, where, key, part);
      if (choice.parts.empty() && !kind->parts.empty()) choice.parts[kind->parts.front()] = {};
    }
    int rates = 0;
    for (const char* rate : {"growth rate", "recruitment", "seniority"})
      rates += static_cast<int>(choice.parts.count(rate));
    if (rates > 1) wrong(where, messages::kSeveralRates, messages::kStateOneRate);
    card.models.push_back(choice);
  }

  void model_field(ModelChoice& choice, const ModelEntry& kind, const std::string& where,
                   const std::string& key, const json& value) {
    const std::string here = where + ", " + key;
    if (kind.name == "robust" && key == "emigration") {
      const std::vector<std::string> known = {"none", "random", "random by period", "depends on before"};
      if (value.is_string() && holds(known, value))
        choice.emigration = value;
      else
        wrong(here, is(value), use(known));
    } else if (kind.name == "super-population" && key == "ends_certain") {
      if (value.is_boolean())
        choice.ends_certain = value;
      else
        wrong(here, is(value), messages::kWriteTrueOrFalse);
    } else if (kind.numbers_by_group && key == "numbers_by") {
      choice.numbers_by = names(here, value);
    } else if (!holds(kind.parts, key)) {
      std::vector<std::string> fields = kind.parts;
      if (kind.numbers_by_group) fields.push_back("numbers_by");
      if (kind.name == "robust") fields.push_back("emigration");
      if (kind.name == "super-population") fields.push_back("ends_certain");
      wrong(here, of_model(messages::kNoPartOfModel, kind.name),
            fields.empty() ? Message(messages::kNoFurtherFields) : use(fields));
    } else {
      choice.parts[key] = part(kind, key, here, value);
    }
  }

  PartChoice part(const ModelEntry& kind, const std::string& name, const std::string& where,
                  const json& value) {
    PartChoice part;
    if (value == "constant") return part;
    if (!value.is_object()) {
      wrong(where, is(value), like(messages::kWritePartLike, R"({"varies_by": ["occasion"], ...})"));
      return part;
    }
    for (const auto& [key, item] : value.items()) {
      std::string here = where;
      here.append(", ").append(key);
      if (key == "varies_by") {
        part.varies_by = names(here, item);
      } else if (key == "linear_in") {
        part.linear_in = names(here, item);
      } else if (key == "each_combination" || key == "after_capture") {
        if (!item.is_boolean())
          wrong(here, is(item), messages::kWriteTrueOrFalse);
        else
          (key == "after_capture" ? part.after_capture : part.each_combination) = item;
      } else {
        wrong(here, messages::kNoSuchModel, messages::kUsePartFields);
      }
    }
    if (part.after_capture && kind.name != "conditional" && kind.name != "survival" &&
        !(kind.name == "super-population" && name == "survival"))
      wrong(where + ", after_capture", messages::kNotAfterCapture, messages::kLeaveItOut);
    if (kind.freedom == ModelEntry::Freedom::none && !part.constant())
      wrong(where, of_model(messages::kModelTakesNoTerms, kind.name), messages::kLeaveItOut);
    const bool in_time = part.by("occasion") || (kind.name == "robust" && part.by("period"));
    if (part.each_combination && (part.varies_by.size() < 2 || !in_time))
      wrong(where + ", each_combination", messages::kNeedsOccasionAndGroup, messages::kNameBothLike);
    if (part.by("period") && kind.name != "robust")
      wrong(where + ", varies_by", of_model(messages::kNotByPeriod, kind.name), messages::kUseOccasion);
    return part;
  }

  std::vector<std::string> names(const std::string& where, const json& value) {
    std::vector<std::string> list;
    if (!value.is_array()) {
      wrong(where, is(value), messages::kGiveNamesLike);
      return list;
    }
    for (const json& name : value) {
      if (!name.is_string())
        wrong(where, {messages::kIsNoName, {{"value", name.dump()}}}, messages::kQuoteNames);
      else if (holds(list, name))
        wrong(where, {messages::kNameStandsTwice, {{"name", name.get<std::string>()}}},
              messages::kNameItOnce);
      else
        list.push_back(name);
    }
    return list;
  }

  void fits_design(const ModelCard& card, const ModelChoice& choice) {
    if (card.design == "auto") return;
    for (const ModelEntry& kind : registry())
      if (kind.name == choice.name && kind.design != card.design)
        wrong("model '" + choice.name + "'",
              {messages::kForAnotherDesign, {{"design", kind.design}, {"asked", card.design}}},
              messages::kChangeOneOfThem);
  }

  std::vector<Complaint> wrongs_;
};

}  // namespace

ModelCard read_model_card(const json& card) {
  return Reader().card(card);
}

}  // namespace evet::models
