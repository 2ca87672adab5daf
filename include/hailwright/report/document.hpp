#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace hailwright {

/// How a few words are meant; a renderer may show it, and never by colour alone.
enum class Tone { plain, strong, good, bad, open };

/// Words of one tone.
struct Run {
  std::string text;
  Tone tone = Tone::plain;
};

using Runs = std::vector<Run>;
/// Plain words as runs.
inline Runs plain(std::string text) {
  return {Run{std::move(text), Tone::plain}};
}

/// Stands under the document's title, if there is one. Only the order of levels counts: a document
/// may begin with level 1 or 2.
struct Heading {
  int level = 1;  ///< 1 to 3
  Runs text;
};

struct Paragraph {
  Runs text;
};

/// A label (without a colon) with what there is to say about it, in one or more lines.
struct Fact {
  std::string label;
  std::vector<Runs> lines;
};

/// Facts whose labels line up.
struct Facts {
  std::vector<Fact> items;
};

enum class Align { left, right };

struct Column {
  std::string title;
  Align align = Align::left;
};

/// Cells are plain text; every row has as many as there are columns.
struct Table {
  std::string caption;  ///< may be empty
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  bool to_fill_in = false;  ///< a form: its empty cells are room to write in by hand
};

struct Bullets {
  std::vector<Runs> items;
};

struct CautionItem {
  std::string id;
  std::string title;
  std::string text;
  std::string source;
};

struct CautionList {
  std::vector<CautionItem> items;
};

/// Lines to copy as they stand, such as keys to paste into a file: never wrapped, leading blanks
/// kept.
struct Snippet {
  std::vector<std::string> lines;
};

/// A picture. Everything that it tells stands in the text or in a table too.
struct Figure {
  std::string id;           ///< letters, digits and -: the name of its file without ".svg"
  std::string title;        ///< what is seen: "Aim map of Rigid A"
  std::string description;  ///< for whoever cannot see it
  std::string svg;          ///< a whole <svg> element, text in it as text
};

/// Things to tick off by hand on paper, in order.
struct Checklist {
  std::vector<Runs> items;
};

/// What follows begins on a new sheet of paper.
struct PageBreak {};

using Block = std::variant<Heading, Paragraph, Facts, Table, Bullets, CautionList, Snippet, Figure,
                           Checklist, PageBreak>;

/// What is said, without how it looks. All formats are rendered from one of these.
struct Document {
  std::string title;  ///< printed first; not repeated as a Heading. May be empty
  std::vector<Block> blocks;
  std::string foot = {};  ///< printed at the foot of every sheet of paper; may be empty
};

}  // namespace hailwright
