#include "tools/words/picture_questions.h"

#include "matcher/base/place.h"
#include "tools/words/text.h"

namespace evet {

std::vector<std::string> picture_questions(const CaptureState& capture, const Names& names) {
  std::vector<std::string> sentences;
  const CaptureFacts& facts = capture.facts;
  for (const SaidOtherwise& said : capture.said_otherwise) {
    std::string sentence = "Capture " + evet::quoted(names.of(capture)) + " of " + facts.night + " at " +
                           place_of(facts.site, facts.pond) + ": the same picture was taken in elsewhere";
    if (said.night != facts.night) sentence += ", as of " + said.night;
    if (said.site != facts.site || said.pond != facts.pond)
      sentence += ", at " + place_of(said.site, said.pond);
    if (!said.individual.empty() && said.individual != facts.individual)
      sentence +=
          ", as individual " + evet::quoted(said.individual) + " and not " + evet::quoted(facts.individual);
    sentences.push_back(sentence +
                        ". It counts once, as the first says: mend the sheet that is wrong and take "
                        "the right one in with --move.");
  }
  return sentences;
}

std::vector<std::string> picture_questions(const Identities& who, const Names& names) {
  std::vector<std::string> all;
  for (const CaptureState& capture : who.captures)
    for (std::string& sentence : picture_questions(capture, names)) all.push_back(std::move(sentence));
  return all;
}

}  // namespace evet
