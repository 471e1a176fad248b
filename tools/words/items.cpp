#include "tools/words/items.h"

#include "tools/words/in_words.h"
#include "tools/words/messages.h"

namespace evet {

std::string capture_item(const std::string& name) {
  return in_words(messages::kCaptureItem, {{"name", name}});
}

std::string catalogue_item(const std::string& name) {
  return in_words(messages::kCatalogueItem, {{"name", name}});
}

std::string entry_item(const std::string& id) {
  return in_words(messages::kEntryItem, {{"id", id}});
}

std::string individual_item(const std::string& name) {
  return in_words(messages::kIndividualItem, {{"name", name}});
}

std::string label_item(const std::string& label) {
  return in_words(messages::kLabelItem, {{"label", label}});
}

std::string night_item(const std::string& night) {
  return in_words(messages::kNightItem, {{"night", night}});
}

std::string photo_item(const std::string& name) {
  return in_words(messages::kPhotoItem, {{"name", name}});
}

std::string reader_item(const std::string& code) {
  return in_words(messages::kReaderItem, {{"code", code}});
}

}  // namespace evet
