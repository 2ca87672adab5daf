#pragma once

#include <string>

#include "hailwright/report/document.hpp"

namespace hailwright {

struct ConsoleStyle {
  int width = 80;        ///< in characters, 40 to 120; outside, the nearest of these is taken
  bool colour = false;   ///< only ever in addition to words
  bool unicode = false;  ///< the terminal shows UTF-8: pictures in characters where there are any
};

/// The document for a terminal: wrapped at word ends, no line longer than the width unless a single
/// word or a line to copy is. A table too wide for the width is wrapped inside its cells; if that
/// does not suffice, each row becomes a few labelled lines. Control characters, escape sequences
/// and bidirectional overrides in any text come out as '?': a label cannot steer the terminal.
/// Width counts terminal columns (combining marks 0, East Asian wide 2).
/// Pictures and photographs are told in words; on a terminal with UTF-8 a picture's sketch stands
/// before them where its lines fit. A new sheet of paper is a rule, the foot stands once at the
/// end. The address of a link to elsewhere stands behind the words unless it is in them. Contract:
/// every table has a column, every row as many cells as columns, heading levels 1 to 3; a picture
/// has a title, an opening a sentence; a link is an address that begins with "https://",
/// "#id", or a file below the document without "." and ".." in its path.
std::string render_console(const Document& document, ConsoleStyle style);

struct MarkdownStyle {
  /// true: pictures are linked as files beside it, named after their ids, and photographs as their
  /// files; false: in words alone.
  bool pictures = false;
};

/// The document as CommonMark with pipe tables. All text is escaped and comes out literally, except
/// that flavours which link bare web addresses will do so. One paragraph a line, so that
/// differences between two versions read well. A new sheet of paper is a thematic break. A link to
/// a heading leads to the name that the common flavours give it; where they differ, and to a
/// picture, the words alone stand. Contract: as render_console; ids of headings and pictures differ
/// and hold letters, digits and -;
/// "#id" is one of them.
std::string render_markdown(const Document& document, MarkdownStyle style = {});

/// The document as one HTML file that needs nothing beside it: no script, nothing fetched (its
/// content security policy forbids both), pictures and photographs inside. Written so that it is
/// also well-formed XML. Light or dark as the reader's system asks; made for widths from a
/// telephone to A3 and, when printed, for A4 and Letter alike: running title, page number, and the
/// document's foot on every sheet, the addresses of links behind their words. One heading of the
/// first level: the title; without one the first heading, or, where several headings of the highest
/// level have parts of their own, the names of these. Three or more of the second level get a table
/// of contents, which stands behind an opening that begins the document. All text is escaped; what
/// `render_console` shows as '?' is '?' here too. Contract: as render_markdown; a figure's svg
/// begins with "<svg", and its ids all begin with the figure's id; a photograph is a JPEG or PNG
/// image with bytes, width and height.
std::string render_html(const Document& document);

/// A table as comma-separated values (RFC 4180: CRLF, quotes doubled), titles first, without its
/// caption. A cell that a spreadsheet could take for a formula (it begins, after blanks, with
/// = + - @, their full-width forms, tab or line break) and is not a plain number gets an apostrophe
/// in front and is quoted; control characters come out as '?'.
/// Contract: as render_console.
std::string render_csv(const Table& table);

}  // namespace hailwright
