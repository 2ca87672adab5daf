#include "hailwright/model/findings.hpp"

#include <set>
#include <string>

#include "support/catch.hpp"

using namespace hailwright;

namespace {

std::set<std::string> words_of(Gravity gravity) {
  std::set<std::string> words;
  for (const FindingKind& kind : finding_kinds()) {
    if (kind.gravity == gravity) words.emplace(kind.word);
  }
  return words;
}

}  // namespace

// Source: IEC 61215:2005 list of major visual defects, read on secondary pages; live part, burnt,
// broken joint and broken ribbon from memory.
TEST_CASE("findings: what always counts as major", "[model]") {
  CHECK(words_of(Gravity::major) ==
        std::set<std::string>{"broken front", "broken back", "broken frame", "broken box", "bent",
                              "bubbles to edge", "loose part", "lost label", "live part", "burnt",
                              "broken joint", "broken ribbon"});
}

TEST_CASE("findings: what counts by its share of a cell, above 10 %", "[model]") {
  CHECK(words_of(Gravity::by_share) == std::set<std::string>{"cell crack", "voids"});
  for (const char* word : {"cell crack", "voids"}) {
    CAPTURE(word);
    const FindingKind* kind = find_finding_kind(word);
    REQUIRE(kind != nullptr);
    CHECK_THAT(kind->share.si(), WithinAbs(0.10, 1e-15));
    CHECK(kind->status == ReadStatus::read);
  }
}

TEST_CASE("findings: what is reported and decides nothing", "[model]") {
  CHECK(words_of(Gravity::minor) == std::set<std::string>{"scuff", "chip", "dent", "bubbles",
                                                          "colour", "trail", "water inside",
                                                          "box wobble", "cut lead"});
}

TEST_CASE("findings: later additions carry the mark of memory, minor ones are ours", "[model]") {
  for (const FindingKind& kind : finding_kinds()) {
    CAPTURE(kind.word);
    const std::set<std::string> later{"live part", "burnt", "broken joint", "broken ribbon"};
    const ReadStatus expected = kind.gravity == Gravity::minor             ? ReadStatus::ours
                                : later.count(std::string(kind.word)) == 1 ? ReadStatus::from_memory
                                                                           : ReadStatus::read;
    CHECK(kind.status == expected);
  }
}

TEST_CASE("findings: the list is ordered, unique and explained on one line", "[model]") {
  std::set<std::string> seen;
  int last_group = 0;
  for (const FindingKind& kind : finding_kinds()) {
    CAPTURE(kind.word, kind.meaning);
    CHECK(seen.emplace(kind.word).second);
    const int group = kind.gravity == Gravity::major      ? 0
                      : kind.gravity == Gravity::by_share ? 1
                                                          : 2;
    CHECK(group >= last_group);
    last_group = group;
    CHECK(kind.meaning.size() > 15);
    CHECK(kind.meaning.size() < 100);
    CHECK(kind.meaning.find('\n') == std::string_view::npos);
    CHECK(find_finding_kind(kind.word) == &kind);
  }
}

TEST_CASE("findings: a word is found only as the list writes it", "[model]") {
  for (const char* word : {"", "crack", "Cell crack", "cell  crack", "broken"}) {
    CAPTURE(word);
    CHECK(find_finding_kind(word) == nullptr);
  }
}

TEST_CASE("findings: a source that was not read names no page", "[model]") {
  std::set<std::string> ids;
  for (const Citation& source : finding_sources()) {
    CAPTURE(source.id);
    CHECK(ids.emplace(source.id).second);
    CHECK_FALSE(source.title.empty());
    CHECK(source.read_at.empty() == (source.status != ReadStatus::read));
  }
  CHECK(ids.count("iec61215-mqt01") == 1);
}
