#include "input/record_write_up.hpp"

#include "support/catch.hpp"
#include "support/input_files.hpp"

using namespace hailwright;
using namespace hailwright::input;
using input_files::only;
using input_files::seen;
using input_files::Seen;
using input_files::tree;

namespace {

constexpr KeyList keys{"the record", "panel photos write_up"};

std::vector<RecordPhoto> photos(const std::string& yaml, Diagnostics& notes) {
  const Node root = tree(yaml);
  return read_photos(MapReader(root, keys, root.span, notes), notes);
}

WriteUpNotes write_up(const std::string& yaml, Diagnostics& notes) {
  const Node root = tree(yaml);
  return read_write_up(MapReader(root, keys, root.span, notes), notes);
}

/// What the dates of a write-up say beside a test of two days.
Diagnostics dates(const std::string& yaml) {
  Diagnostics notes;
  const Node root = tree(yaml);
  const MapReader map(root, keys, root.span, notes);
  Record record;
  record.date = "2026-06-14";
  record.setups.resize(2);
  record.setups[0].date = "2026-06-13";
  record.setups[1].date = "2026-06-14";
  record.looks.resize(2);
  record.looks[1].date = "2026-06-20";
  record.write_up = read_write_up(map, notes);
  check_write_up_dates(map, record, notes);
  return notes;
}

}  // namespace

TEST_CASE("record_write_up: photos of no look and no shot") {
  Diagnostics notes;
  const auto read = photos("photos: [{file: a.jpg, shows: the mounting}, {file: b/c.png, shows: "
                           "<b>\"A\" & =1+1 |x|}]\n",
                           notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  REQUIRE(read.size() == 2);
  CHECK(read[0].file == "a.jpg");
  CHECK(read[0].shows == "the mounting");
  CHECK(read[0].origin.column == 17);
  CHECK(read[1].shows == "<b>\"A\" & =1+1 |x|");
  CHECK(photos("write_up: {}\n", notes).empty());
}

TEST_CASE("record_write_up: faults of photos at their places") {
  Diagnostics notes;
  const auto read =
      photos("photos: [{file: a.jpg}, {shows: x}, b.jpg, {file: c, show: y}]\n", notes);
  CHECK(seen(notes) ==
        std::vector<Seen>{{"K02", 1, 10}, {"K02", 1, 25}, {"K05", 1, 37}, {"K01", 1, 54}});
  CHECK(read.empty());
  Diagnostics text;
  CHECK(photos("photos: a.jpg\n", text).empty());
  CHECK(only(text).code == "K05");
}

TEST_CASE("record_write_up: every key of the notes") {
  Diagnostics notes;
  const WriteUpNotes read = write_up(R"(write_up:
  author: N. N.
  contact: letters
  place: a garden
  asked_by: nobody
  received: 2026-05-20
  issued: 2026-06-20
  opinions: [stiff frame, dear]
)",
                                     notes);
  CAPTURE(seen(notes));
  CHECK(notes.empty());
  CHECK(read.author == "N. N.");
  CHECK(read.contact == "letters");
  CHECK(read.place == "a garden");
  CHECK(read.asked_by == "nobody");
  CHECK(read.received == "2026-05-20");
  CHECK(read.issued == "2026-06-20");
  CHECK(read.opinions == std::vector<std::string>{"stiff frame", "dear"});
  CHECK(write_up("photos: []\n", notes).author.empty());
  CHECK(notes.empty());
}

TEST_CASE("record_write_up: faults of the notes at their places") {
  Diagnostics notes;
  write_up("write_up: {autor: x, issued: 20 June}\n", notes);
  CHECK(seen(notes) == std::vector<Seen>{{"K01", 1, 12}, {"R03", 1, 30}});
  Diagnostics text;
  write_up("write_up: me\n", text);
  CHECK(only(text).code == "K05");
}

TEST_CASE("record_write_up: the panel came before the test and the report after it") {
  CHECK(dates("write_up: {received: 2026-06-13, issued: 2026-06-20}\n").empty());
  CHECK(dates("write_up: {}\n").empty());
  CHECK(dates("photos: []\n").empty());
  const Diagnostics both = dates("write_up: {received: 2026-06-14, issued: 2026-06-19}\n");
  CHECK(seen(both) == std::vector<Seen>{{"C36", 1, 22}, {"C36", 1, 42}});
  CHECK(both.items().at(0).message ==
        "the panel came on 2026-06-14, after the test began (2026-06-13)");
  CHECK(both.items().at(1).message ==
        "the write-up is dated 2026-06-19, before the test ended (2026-06-20)");
}

// Found by review: a panel that came in 2099 was struck in 2026 without a word.
TEST_CASE("record_write_up: the panel came before the test by its own file") {
  const auto notes_of = [](const std::string& came) {
    Diagnostics notes;
    const Node root = tree("write_up: {}\n");
    const MapReader map(root, keys, root.span, notes);
    Record record;
    record.date = "2026-06-14";
    record.panel.came = Provenance{"", "", came, ""};
    check_write_up_dates(map, record, notes);
    return notes;
  };
  CHECK(notes_of("").empty());
  CHECK(notes_of("2026-06-14").empty());
  const Diagnostics late = notes_of("2099-01-01");
  CHECK_FALSE(late.has_errors());
  CHECK(only(late).code == "C36");
  CHECK(only(late).message ==
        "by its file the panel came on 2099-01-01, after the test began (2026-06-14)");
}

TEST_CASE("record_write_up: without any day of the test nothing is said of the dates") {
  Diagnostics notes;
  const Node root = tree("write_up: {issued: 2026-06-19}\n");
  const MapReader map(root, keys, root.span, notes);
  Record record;
  record.write_up = read_write_up(map, notes);
  check_write_up_dates(map, record, notes);
  CHECK(notes.empty());
}
