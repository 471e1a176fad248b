#include "models/ask/model_card.h"

#include <algorithm>

#include "models/ask/registry.h"
#include "models/base/input_error.h"

namespace evet::models {
namespace {

using nlohmann::json;

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i)
    text += (i == 0 ? "" : i + 1 == names.size() ? " or " : ", ") + names[i];
  return text;
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
      wrong("the card", "it is not an object", "write {\"models\": [...]}");
    } else {
      for (const auto& [key, value] : source.items()) field(card, key, value);
    }
    for (const ModelChoice& choice : card.models) fits_design(card, choice);
    if (!wrongs_.empty()) throw InputError("model card", "\n" + wrongs_, "nothing was fitted");
    return card;
  }

 private:
  void wrong(const std::string& item, const std::string& what, const std::string& right) {
    wrongs_ += "  " + item + ": " + what + "; " + right + "\n";
  }

  void field(ModelCard& card, const std::string& key, const json& value) {
    if (key == "design") {
      if (value.is_string() && holds({"auto", "closed", "open", "robust"}, value))
        card.design = value;
      else
        wrong("design", value.dump() + " is not known", "use auto, closed, open or robust");
    } else if (key == "level") {
      if (value.is_number() && value > 0 && value < 1)
        card.level = value;
      else
        wrong("level", "it is " + value.dump(), "give a number between 0 and 1, for example 0.95");
    } else if (key == "seed") {
      if (value.is_number_unsigned())
        card.seed = value;
      else
        wrong("seed", "it is " + value.dump(), "give a whole number from 0");
    } else if (key == "overdispersion") {
      if (value.is_number() && value >= 1 && value < 1e6)
        card.overdispersion = value;
      else if (value != "measured")
        wrong("overdispersion", "it is " + value.dump(), "give a number from 1, or \"measured\"");
    } else if (key == "survival_per") {
      const std::vector<std::string> known = {"auto", "interval", "day", "week", "month", "year"};
      if (value.is_string() && holds(known, value))
        card.survival_per = value;
      else
        wrong("survival_per", "it is " + value.dump(), "use " + listed(known));
    } else if (key == "bootstrap") {
      if (value.is_number_unsigned() && value <= 10000)
        card.bootstrap = value;
      else
        wrong("bootstrap", "it is " + value.dump(), "give a whole number of draws from 0 to 10000");
    } else if (key == "models") {
      if (!value.is_array() || value.empty())
        wrong("models", value.is_array() ? "the list is empty" : "it is not a list",
              "list names or models, or leave it out for a set that suits the data");
      else
        for (std::size_t i = 0; i < value.size(); ++i)
          model(card, "models, entry " + std::to_string(i + 1), value[i]);
    } else {
      wrong("'" + key + "'", "it is not a field of a card",
            "use design, models, level, seed, overdispersion, survival_per or bootstrap");
    }
  }

  void model(ModelCard& card, const std::string& where, const json& value) {
    ModelChoice choice;
    if (value.is_string()) {
      choice.name = value;
    } else if (value.is_object() && value.contains("model") && value.at("model").is_string()) {
      choice.name = value.at("model");
    } else {
      wrong(where, "it names no model", R"(write a name, or {"model": "survival", ...})");
      return;
    }
    const ModelEntry* kind = nullptr;
    std::vector<std::string> names;
    for (const ModelEntry& one : registry()) {
      names.push_back(one.name);
      if (one.name == choice.name) kind = &one;
    }
    if (!kind) {
      wrong(where, "model '" + choice.name + "' is not known", "use " + listed(names));
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
    if (rates > 1)
      wrong(where, "it states more than one of growth rate, recruitment and seniority",
            "state one, the others follow from it");
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
        wrong(here, "it is " + value.dump(), "use " + listed(known));
    } else if (kind.name == "super-population" && key == "ends_certain") {
      if (value.is_boolean())
        choice.ends_certain = value;
      else
        wrong(here, "it is " + value.dump(), "write true or false");
    } else if (kind.numbers_by_group && key == "numbers_by") {
      choice.numbers_by = names(here, value);
    } else if (!holds(kind.parts, key)) {
      std::vector<std::string> fields = kind.parts;
      if (kind.numbers_by_group) fields.push_back("numbers_by");
      if (kind.name == "robust") fields.push_back("emigration");
      if (kind.name == "super-population") fields.push_back("ends_certain");
      wrong(here, "it is not a part of model '" + kind.name + "'",
            fields.empty() ? "this model takes no further fields" : "use " + listed(fields));
    } else {
      choice.parts[key] = part(kind, here, value);
    }
  }

  PartChoice part(const ModelEntry& kind, const std::string& where, const json& value) {
    PartChoice part;
    if (value == "constant") return part;
    if (!value.is_object()) {
      wrong(where, "it is " + value.dump(), R"(write "constant", or {"varies_by": ["occasion"], ...})");
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
          wrong(here, "it is " + item.dump(), "write true or false");
        else
          (key == "after_capture" ? part.after_capture : part.each_combination) = item;
      } else {
        wrong(here, "it is not known", "use varies_by, each_combination, linear_in or after_capture");
      }
    }
    if (part.after_capture && kind.name != "conditional" && kind.name != "survival" &&
        !(kind.name == "super-population" && where.ends_with(", survival")))
      wrong(where + ", after_capture",
            "only the conditional and the survival model have it, and the survival of the super-population",
            "leave it out");
    if (kind.freedom == ModelEntry::Freedom::none && !part.constant())
      wrong(where, "model '" + kind.name + "' takes no terms", "leave it out");
    const bool in_time = part.by("occasion") || (kind.name == "robust" && part.by("period"));
    if (part.each_combination && (part.varies_by.size() < 2 || !in_time))
      wrong(where + ", each_combination", "it needs the occasion and a group",
            R"(name both in varies_by, for example ["occasion", "sex"])");
    if (part.by("period") && kind.name != "robust")
      wrong(where + ", varies_by", "model '" + kind.name + "' cannot vary by 'period'", "use occasion");
    return part;
  }

  std::vector<std::string> names(const std::string& where, const json& value) {
    std::vector<std::string> list;
    if (!value.is_array()) {
      wrong(where, "it is " + value.dump(), R"(give a list of names, for example ["occasion"])");
      return list;
    }
    for (const json& name : value) {
      if (!name.is_string())
        wrong(where, name.dump() + " is not a name", "put names in quotation marks");
      else if (holds(list, name))
        wrong(where, "'" + name.get<std::string>() + "' stands there twice", "name it once");
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
              "it is for a " + kind.design + " design, the card says " + card.design, "change one of them");
  }

  std::string wrongs_;
};

}  // namespace

ModelCard read_model_card(const json& card) {
  return Reader().card(card);
}

}  // namespace evet::models
