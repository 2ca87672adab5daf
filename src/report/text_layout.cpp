#include "report/text_layout.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <variant>

#include "core/utf8.hpp"

namespace hailwright::detail {

namespace {

constexpr char32_t not_text = U'?';
constexpr char32_t zero_width_joiner = 0x200D;

bool is_break(char32_t c) {
  return c == U'\n' || c == U'\r' || c == U'\t' || c == 0x2028 || c == 0x2029;
}

/// Blanks of general category Zs at which a line may break.
bool is_blank(char32_t c) {
  return c == U' ' || c == 0x1680 || (c >= 0x2000 && c <= 0x200A && c != 0x2007) || c == 0x205F ||
         c == 0x3000;
}

bool is_no_break_blank(char32_t c) {
  return c == 0x00A0 || c == 0x2007 || c == 0x202F;
}

/// East Asian closing marks do not begin a line, opening marks do not end one.
bool may_break_between(char32_t before, char32_t after) {
  constexpr std::u32string_view closing = U"、。〉》」』】〕〗！），．：；？］｝";
  constexpr std::u32string_view opening = U"〈《「『【〔〖（［｛";
  return character_width(before) == 2 && character_width(after) == 2 &&
         closing.find(after) == std::u32string_view::npos &&
         opening.find(before) == std::u32string_view::npos;
}

/// What is never torn apart: a word, whose parts may differ in tone.
struct Word {
  Runs parts;
  int width = 0;
  bool after_blank = true;
};

/// The blank between two words: it leads where both lead, and is of their tone where they share
/// that too.
void append_blank(Runs& line, const Run& next) {
  const Run& before = line.back();
  const bool same_link = before.link == next.link;
  const bool alike = same_link && before.tone == next.tone;
  append(line, " ", alike ? next.tone : Tone::plain, same_link ? next.link : std::string());
}

/// Cuts runs into words. A word may run on from one run into the next ("withstood" and ",").
class WordCutter {
public:
  void read(const Run& run) {
    const std::string text = printable(run.text);
    for (std::size_t i = 0; i < text.size();) {
      const Character c = character_at(text, i);
      take(c.code, std::string_view(text).substr(i, c.length), run);
      i += c.length;
    }
  }

  std::vector<Word> finish() {
    end_word(true);
    return std::move(words_);
  }

private:
  void take(char32_t code, std::string_view bytes, const Run& run) {
    if (is_blank(code)) {
      end_word(true);
      return;
    }
    if (is_no_break_blank(code)) {
      blank_held_ = true;  // printed only if the word goes on
      return;
    }
    if (!word_.parts.empty() && !blank_held_ && may_break_between(last_, code)) {
      end_word(false);
    }
    if (!word_.parts.empty() && blank_held_) {
      append_blank(word_.parts, run);
      ++word_.width;
    }
    blank_held_ = false;
    append(word_.parts, bytes, run.tone, run.link);
    word_.width += character_width(code);
    if (code == zero_width_joiner || character_width(code) > 0) last_ = code;
  }

  void end_word(bool at_blank) {
    if (!word_.parts.empty()) {
      word_.after_blank = next_after_blank_;
      words_.push_back(std::move(word_));
      next_after_blank_ = at_blank;
    } else if (at_blank) {
      next_after_blank_ = true;
    }
    word_ = Word{};
    blank_held_ = false;
  }

  std::vector<Word> words_;
  Word word_;
  char32_t last_ = 0;
  bool blank_held_ = false;
  bool next_after_blank_ = true;
};

std::string text_of(const Word& word) {
  std::string text;
  for (const Run& part : word.parts)
    text += part.text;
  return text;
}

/// Whether a line should not end between these words: "25" and "mm", "0.35" and "%/K". What is
/// short enough to be a unit counts as one; nothing is lost where it is none.
bool belongs_to_number(const Word& number, const Word& unit) {
  constexpr int longest_unit = 4;
  if (!unit.after_blank) return false;
  const std::string figures = text_of(number);
  const bool only_figures =
      figures.find_first_not_of("(<>=~+-.0123456789\u00B1\u2212") == std::string::npos;
  if (!only_figures || figures.back() < '0' || figures.back() > '9') return false;
  const std::string symbol = text_of(unit);
  const std::size_t end = symbol.find_last_not_of(".,;:)");
  return end != std::string::npos && display_width(symbol.substr(0, end + 1)) <= longest_unit &&
         (symbol.front() < '0' || symbol.front() > '9');
}

void append_word(Runs& line, const Word& word) {
  for (const Run& part : word.parts)
    append(line, part.text, part.tone, part.link);
}

std::vector<Word> words_of(const Runs& text) {
  WordCutter cutter;
  for (const Run& run : text)
    cutter.read(run);
  std::vector<Word> words;
  for (Word& word : cutter.finish()) {
    if (!words.empty() && belongs_to_number(words.back(), word)) {
      append_blank(words.back().parts, word.parts.front());
      append_word(words.back().parts, word);
      words.back().width += 1 + word.width;
    } else {
      words.push_back(std::move(word));
    }
  }
  return words;
}

}  // namespace

Character character_at(std::string_view text, std::size_t offset) {
  const Utf8Character c = utf8_at(text, offset);
  if (c.size == 0) return {not_text, 1};
  return {c.code, c.size};
}

std::string printable(std::string_view text, Breaks breaks) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    if (is_break(c.code) && breaks == Breaks::as_blanks) {
      out += ' ';
    } else if (c.code == not_text || (steers(c.code) && !is_break(c.code))) {
      out += '?';
    } else {
      out += text.substr(i, c.length);
    }
    i += c.length;
  }
  return out;
}

int display_width(std::string_view text) {
  int width = 0;
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    width += character_width(c.code);
    i += c.length;
  }
  return width;
}

int display_width(const Runs& line) {
  int width = 0;
  for (const Run& run : line)
    width += display_width(run.text);
  return width;
}

std::string blanks(int count) {
  std::string text;
  text.resize(static_cast<std::size_t>(std::max(count, 0)), ' ');
  return text;
}

void append(Runs& line, std::string_view text, Tone tone, std::string_view link) {
  if (text.empty()) return;
  if (!line.empty() && line.back().tone == tone && line.back().link == link) {
    line.back().text += text;
  } else {
    line.push_back({std::string(text), tone, std::string(link)});
  }
}

int top_level(const Document& document) {
  constexpr int lowest = 3;
  int top = lowest + 1;
  for (const Block& block : document.blocks) {
    if (const auto* heading = std::get_if<Heading>(&block)) top = std::min(top, heading->level);
  }
  return top > lowest ? 1 : top;
}

std::vector<Runs> wrap(const Runs& text, int width) {
  std::vector<Runs> lines;
  int used = 0;
  for (const Word& word : words_of(text)) {
    const int blank = word.after_blank ? 1 : 0;
    if (lines.empty() || used > width - blank - word.width) {
      lines.emplace_back();
      used = 0;
    } else if (blank == 1) {
      append_blank(lines.back(), word.parts.front());
      ++used;
    }
    append_word(lines.back(), word);
    used += word.width;
  }
  return lines;
}

Runs one_line(const Runs& text) {
  const std::vector<Runs> lines = wrap(text, std::numeric_limits<int>::max());
  return lines.empty() ? Runs{} : lines.front();
}

std::string one_line(std::string_view text) {
  const Runs line = one_line(plain(std::string(text)));
  return line.empty() ? std::string() : line.front().text;
}

std::string words_alone(const Runs& text) {
  std::string out;
  for (const Run& run : one_line(text))
    out += run.text;
  return out;
}

int longest_word(std::string_view text) {
  int longest = 0;
  for (const Word& word : words_of(plain(std::string(text)))) {
    longest = std::max(longest, word.width);
  }
  return longest;
}

Runs in_strong(Runs text) {
  for (Run& run : text) {
    if (run.tone == Tone::plain) run.tone = Tone::strong;
  }
  return text;
}

}  // namespace hailwright::detail
