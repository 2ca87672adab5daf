#include "input/protocol_safety.hpp"

#include <fstream>
#include <iterator>

#include "hailwright/model/safety_questions.hpp"
#include "support/catch.hpp"
#include "support/input_files.hpp"
#include "support/safety_answers.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;

namespace {

struct Read {
  SafetyAnswers answers;
  Diagnostics notes;
};

/// Reads `safety:` and what follows it.
Read read(const std::string& text) {
  const Node root = input_files::tree(text);
  Read result;
  result.answers = read_safety(root.entries.at(0), result.notes);
  return result;
}

Read read_one(const SafetyQuestion& q, const std::string& answer) {
  return read("safety:\n  " + std::string(q.block) + ":\n    " + std::string(q.key) + ": " +
              answer + "\n");
}

}  // namespace

TEST_CASE("protocol_safety: every question is read, with its place") {
  const SafetyAnswers written = safety_answers::all(Launcher::sling);
  const Read result = read(safety_answers::yaml(written));
  CAPTURE(seen(result.notes));
  CHECK(result.notes.empty());
  CHECK(result.answers.origin.line == 1);
  REQUIRE(result.answers.blocks.size() == safety_blocks().size());
  for (const SafetyQuestion& q : safety_questions()) {
    CAPTURE(q.block, q.key);
    const SafetyAnswer& answer =
        result.answers.blocks.at(std::string(q.block)).at(std::string(q.key));
    CHECK(answer.text == written.blocks.at(std::string(q.block)).at(std::string(q.key)).text);
    CHECK(answer.origin.line > 2);
    CHECK(answer.origin.column == 7 + static_cast<int>(q.key.size()));
  }
}

TEST_CASE("protocol_safety: inside braces too") {
  const Read result = read("safety: {people: {in_front: nobody, others: 10 m away or more}}\n");
  CHECK(result.notes.empty());
  CHECK(result.answers.blocks.at("people").at("others").text == "10 m away or more");
  CHECK(result.answers.blocks.size() == 1);
}

TEST_CASE("protocol_safety: every word of every list may be answered, the bad ones too") {
  for (const SafetyQuestion& q : safety_questions()) {
    std::vector<std::string_view> words = q.words;
    if (q.form == AnswerForm::yes_no) words = {"yes", "no"};
    for (const std::string_view word : words) {
      CAPTURE(q.key, word);
      const Read result = read_one(q, std::string(word));
      CHECK(result.notes.empty());
      CHECK(result.answers.blocks.at(std::string(q.block)).at(std::string(q.key)).text == word);
    }
  }
}

TEST_CASE("protocol_safety: an answer to come is refused for every question") {
  for (const SafetyQuestion& q : safety_questions()) {
    CAPTURE(q.block, q.key);
    const Read result = read_one(q, std::string(answer_to_come));
    const Diagnostic note = only(result.notes);
    CHECK(note.code == "S01");
    CHECK(note.where.line == 3);
    CHECK(note.where.column == 7 + static_cast<int>(q.key.size()));
    CHECK_THAT(note.message, Contains(std::string(q.asks)));
    CHECK_THAT(note.hints.at(0), Contains(std::string(q.example)));
    CHECK(result.answers.blocks.empty());
  }
}

TEST_CASE("protocol_safety: answers of another form, at their places") {
  struct Row {
    const char* text;
    const char* code;
    int line, column;
    const char* part;
  };
  const Row row =
      GENERATE(Row{"safety: nobody", "K05", 1, 9, "mapping"},
               Row{"safety: {people: [a]}", "K05", 1, 18, "mapping"},
               Row{"safety: {person: {a: b}}", "K01", 1, 10, "safety"},
               Row{"safety: {people: {infront: nobody}}", "K01", 1, 19, "people under safety"},
               Row{"safety: {people: {in_front: none}}", "K06", 1, 29, "'in_front' cannot be"},
               Row{"safety: {people: {in_front: [nobody]}}", "K05", 1, 29, "text"},
               Row{"safety: {people: {lookout: true}}", "K06", 1, 28, "'lookout' cannot be"},
               Row{"safety: {people: {lookout: Yes}}", "K06", 1, 28, "'lookout' cannot be"},
               Row{"safety: {eyes: {everyone: sunglasses}}", "K06", 1, 27, "'everyone' cannot be"},
               Row{"safety: {ground: {clear_ahead: 12}}", "U02", 1, 32, "'clear_ahead'"},
               Row{"safety: {ground: {clear_ahead: 12 kg}}", "U03", 1, 35, "'clear_ahead'"},
               Row{"safety: {ground: {clear_ahead: -1 m}}", "R01", 1, 32, "from 0 m to 10000 m"},
               Row{"safety: {ground: {clear_ahead: 11 km}}", "U04", 1, 35, "'clear_ahead'"},
               Row{"safety: {ground: {backstop: 2.4 m}}", "U20", 1, 29, "'backstop'"},
               Row{"safety: {ground: {backstop: 2.4 x 2.4}}", "U02", 1, 35, "'backstop'"},
               Row{"safety: {ground: {backstop: 0 x 2.4 m}}", "R01", 1, 29, "more than 0 m"},
               Row{"safety: {ground: {backstop: 240 x 240 m}}", "R01", 1, 29, "up to 100 m"},
               Row{"safety: {launcher: {pressure: 0 bar}}", "R01", 1, 31, "more than 0 bar"},
               Row{"safety: {launcher: {pressure: 301 bar}}", "R01", 1, 31, "up to 300 bar"},
               Row{"safety: {launcher: {volume: 1001 l}}", "R01", 1, 29, "up to 1000 l"},
               Row{"safety: {launcher: {volume: 2 L}}", "U04", 1, 31, "unknown unit"},
               Row{"safety: {agreed: {on: June}}", "R03", 1, 23, "not a date"},
               Row{"safety: {agreed: {on: 2026-02-30}}", "R03", 1, 23, "not a date"});
  CAPTURE(row.text);
  const Read result = read(std::string(row.text) + "\n");
  const Diagnostic note = only(result.notes);
  CHECK(note.code == row.code);
  CHECK(note.where.line == row.line);
  CHECK(note.where.column == row.column);
  CHECK_THAT(note.message, Contains(row.part));
  CHECK(result.answers.blocks.empty());
}

TEST_CASE("protocol_safety: the nearest word and the nearest key are named") {
  CHECK_THAT(only(read("safety: {people: {lokout: yes}}\n").notes).hints.at(0),
             Contains("did you mean 'lookout'"));
  CHECK_THAT(only(read("safety: {panel: {faces: coverd}}\n").notes).hints.at(0),
             Contains("did you mean 'covered'"));
  CHECK_THAT(only(read("safety: {launcher: {pressure_part: pvc}}\n").notes).hints.at(0),
             Contains("any plastic part"));
}

TEST_CASE("protocol_safety: one fault does not hide the others, and good answers stay") {
  const Read result = read("safety:\n"
                           "  people: {in_front: none, lookout: yes, sober: perhaps}\n"
                           "  agreed: {by: MK, on: June}\n");
  CHECK(seen(result.notes) == std::vector<Seen>{{"K06", 2, 22}, {"K06", 2, 49}, {"R03", 3, 24}});
  CHECK(result.answers.blocks.at("people").size() == 1);
  CHECK(result.answers.blocks.at("agreed").count("by") == 1);
}

TEST_CASE("protocol_safety: the key lists are made from the questions") {
  const auto& lists = safety_key_lists();
  REQUIRE(lists.size() == safety_blocks().size() + 1);
  CHECK(lists[0].where == "safety");
  CHECK(lists[0].keys == "launcher people ground eyes panel ice after agreed");
  std::size_t keys = 0;
  for (std::size_t i = 1; i < lists.size(); ++i) {
    CHECK(lists[i].where == std::string(safety_blocks()[i - 1]) + " under safety");
    for (const std::string& key : words_of(lists[i].keys)) {
      CAPTURE(key);
      CHECK(find_safety_question(safety_blocks()[i - 1], key) != nullptr);
      ++keys;
    }
  }
  CHECK(keys == safety_questions().size());
}
