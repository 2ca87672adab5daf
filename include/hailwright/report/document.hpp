#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace hailwright {

/// How a few words are meant; a renderer may show it, and never by colour alone.
enum class Tone { plain, strong, good, bad, open };

/// Words of one tone, perhaps leading somewhere.
struct Run {
  std::string text;
  Tone tone = Tone::plain;
  /// "https://...", "#id" of a block of this document, or a file beside it: "readings.csv". Where a
  /// format cannot link, the words alone stand; they make sense without it.
  std::string link = {};
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
  std::string id = {};  ///< what links lead to: letters, digits and -; empty: made from the words
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
  /// The same table for machines, as a file beside the document: "readings.csv"; may be empty.
  std::string file = {};
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
  /// The same in characters for a terminal that has them, lines of 72 columns at most; may be none.
  std::vector<std::string> sketch = {};
};

/// A photograph, of its pixels alone: what else the file held, such as where and when it was taken,
/// is gone.
struct Photo {
  std::string file;         ///< below the document: "photos/1-look-2.jpg"; its bytes are `bytes`
  std::string title;        ///< "After large: scuff at place 14"
  std::string description;  ///< for whoever cannot see it
  std::string media_type;   ///< "image/jpeg" or "image/png"
  std::string bytes;
  int width = 0, height = 0;  ///< in pixels
};

/// What a reader sees first, without scrolling where the screen allows it: the sentence, the
/// picture beside the facts, the cautions in short.
struct Opening {
  Runs sentence;
  Figure picture;              ///< none where its `svg` is empty
  std::vector<Fact> facts;     ///< short ones
  std::vector<Runs> cautions;  ///< a line each; the list in full stands further down
};

/// Things to tick off by hand on paper, in order.
struct Checklist {
  std::vector<Runs> items;
};

/// What follows begins on a new sheet of paper.
struct PageBreak {};

using Block = std::variant<Heading, Paragraph, Facts, Table, Bullets, CautionList, Snippet, Figure,
                           Photo, Opening, Checklist, PageBreak>;

/// What is said, without how it looks. All formats are rendered from one of these.
struct Document {
  std::string title;  ///< printed first; not repeated as a Heading. May be empty
  std::vector<Block> blocks;
  std::string foot = {};  ///< printed at the foot of every sheet of paper; may be empty
};

}  // namespace hailwright
