// What a refusal is about, as the head of its sentence: "capture 'c7': ...".
#pragma once
#include <string>

namespace evet {

std::string capture_item(const std::string& name);
std::string catalogue_item(const std::string& name);
std::string entry_item(const std::string& id);
std::string individual_item(const std::string& name);
std::string label_item(const std::string& label);
std::string night_item(const std::string& night);
std::string photo_item(const std::string& name);
std::string reader_item(const std::string& code);

}  // namespace evet
