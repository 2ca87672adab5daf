#include "hailwright/model/safety_questions.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <utility>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

/// Letters and underscores only: a key that needs no quotes.
bool is_plain_key(std::string_view key) {
  return !key.empty() && std::all_of(key.begin(), key.end(),
                                     [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; });
}

/// Read as it stands also inside braces: nothing that ends or opens something there.
bool is_plain_text(std::string_view text) {
  return !text.empty() && text.find_first_of(",:#{}[]\"'|>&*!%@`?") == std::string_view::npos &&
         text.front() != ' ' && text.back() != ' ' && text.front() != '-';
}

}  // namespace

TEST_CASE("safety_questions: seven blocks of facts and who agreed, each with questions") {
  const auto blocks = safety_blocks();
  CHECK(std::vector<std::string_view>(blocks.begin(), blocks.end()) ==
        std::vector<std::string_view>{"launcher", "people", "ground", "eyes", "panel", "ice",
                                      "after", "agreed"});
  std::size_t at = 0;
  std::set<std::string_view> used;
  for (const SafetyQuestion& q : safety_questions()) {
    CAPTURE(q.block, q.key);
    while (at < blocks.size() && blocks[at] != q.block)
      ++at;
    REQUIRE(at < blocks.size());  // block after block
    used.insert(q.block);
  }
  CHECK(used.size() == blocks.size());
}

TEST_CASE("safety_questions: each is whole, short and found by its key") {
  std::set<std::pair<std::string_view, std::string_view>> seen;
  std::set<std::string_view> asked;
  for (const SafetyQuestion& q : safety_questions()) {
    CAPTURE(q.block, q.key, q.asks);
    CHECK(seen.insert({q.block, q.key}).second);
    CHECK(asked.insert(q.asks).second);
    CHECK(is_plain_key(q.key));
    CHECK(q.asks.size() > 10);
    CHECK(q.asks.size() <= 85);
    CHECK(q.asks.find('\n') == std::string_view::npos);
    CHECK(is_plain_text(q.example));
    CHECK(q.example != answer_to_come);
    CHECK(find_safety_question(q.block, q.key) == &q);
    CHECK_FALSE(possible_answers(q).empty());
  }
  CHECK(find_safety_question("people", "inspected") == nullptr);
  CHECK(find_safety_question("", "") == nullptr);
  CHECK(find_safety_question("agreed", "On") == nullptr);
}

TEST_CASE("safety_questions: a list of words leaves a choice, and the example is of its form") {
  for (const SafetyQuestion& q : safety_questions()) {
    CAPTURE(q.key);
    CHECK(q.words.empty() == (q.form != AnswerForm::word));
    std::set<std::string_view> words;
    for (const std::string_view word : q.words) {
      CAPTURE(word);
      CHECK(words.insert(word).second);
      CHECK(is_plain_text(word));
    }
    switch (q.form) {
    case AnswerForm::word:
      CHECK(q.words.size() >= 2);
      CHECK(words.count(q.example) == 1);
      break;
    case AnswerForm::yes_no:
      CHECK((q.example == "yes" || q.example == "no"));
      break;
    case AnswerForm::amount:
      CHECK(read_amount(q.example, q.measure).value.has_value());
      break;
    case AnswerForm::sides:
      CHECK_THAT(std::string(q.example), Contains(" x "));
      break;
    case AnswerForm::date:
      CHECK(q.example.size() == 10);
      break;
    case AnswerForm::text:
      break;
    }
  }
}

TEST_CASE("safety_questions: what may be answered, in words") {
  CHECK(possible_answers(*find_safety_question("launcher", "inspected")) == "yes or no");
  CHECK(possible_answers(*find_safety_question("ice", "handled_with")) ==
        "dry gloves; tongs; bare hands");
  CHECK(possible_answers(*find_safety_question("launcher", "volume")) == "a volume");
  CHECK(possible_answers(*find_safety_question("ground", "backstop")) == "width x height");
  CHECK(possible_answers(*find_safety_question("agreed", "on")) == "a date");
  CHECK(possible_answers(*find_safety_question("agreed", "by")) == "a text");
}

TEST_CASE("safety_questions: docs/protocol-format.md has each as a row, in order, and no other") {
  std::ifstream file(std::string(HAILWRIGHT_SOURCE_DIR) + "/docs/protocol-format.md",
                     std::ios::binary);
  REQUIRE(file);
  const std::string page{std::istreambuf_iterator<char>(file), {}};
  std::size_t from = page.find("\n## Safety\n");
  REQUIRE(from != std::string::npos);
  std::string_view block;
  std::size_t rows = 0;
  for (const SafetyQuestion& q : safety_questions()) {
    if (q.block != block) {
      std::string heading(q.block);
      heading[0] = static_cast<char>(heading[0] - 'a' + 'A');
      from = page.find("\n### " + heading + " under safety\n", from);
      REQUIRE(from != std::string::npos);
      block = q.block;
    }
    const std::string row = "\n| `" + std::string(q.key) + "` | " + std::string(q.asks) + " | " +
                            possible_answers(q) + " | `" + std::string(q.key) + ": " +
                            std::string(q.example) + "` |\n";
    CAPTURE(row);
    const std::size_t at = page.find(row, from);
    REQUIRE(at != std::string::npos);
    from = at;
    ++rows;
  }
  std::size_t in_page = 0;
  const std::size_t first = page.find("\n### Launcher under safety\n");
  for (std::size_t at = page.find("\n| `", first); at != std::string::npos;
       at = page.find("\n| `", at + 1))
    ++in_page;
  CHECK(in_page == rows);
}
