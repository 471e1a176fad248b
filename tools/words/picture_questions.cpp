#include "tools/words/picture_questions.h"

#include "matcher/base/place.h"
#include "tools/words/messages.h"
#include "tools/words/text.h"

namespace evet {

std::vector<std::string> picture_questions(const CaptureState& capture, const Names& names) {
  std::vector<std::string> sentences;
  const CaptureFacts& facts = capture.facts;
  for (const SaidOtherwise& said : capture.said_otherwise) {
    std::string differences;
    const auto differs = [&](const MessageText& text, std::vector<Message::Argument> arguments) {
      differences += Message(text, std::move(arguments)).words();
    };
    if (said.night != facts.night) differs(messages::kAsOfNight, {{"night", said.night}});
    if (said.site != facts.site || said.pond != facts.pond)
      differs(messages::kAtPlace, {{"place", place_of(said.site, said.pond)}});
    if (!said.individual.empty() && said.individual != facts.individual)
      differs(messages::kAsIndividual,
              {{"individual", in_quotes(said.individual)}, {"other", in_quotes(facts.individual)}});
    sentences.push_back(Message(messages::kPictureQuestion, {{"name", in_quotes(names.of(capture))},
                                                             {"night", facts.night},
                                                             {"place", place_of(facts.site, facts.pond)},
                                                             {"differences", differences}})
                            .words());
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
