#include "report/render_html_text.hpp"

#include <algorithm>
#include <array>

#include "report/render_link.hpp"
#include "report/text_layout.hpp"

namespace hailwright::detail {

namespace {

std::string_view class_of(Tone tone) {
  switch (tone) {
  case Tone::plain:
  case Tone::strong:
    return "";
  case Tone::good:
    return "class=\"good\"";
  case Tone::bad:
    return "class=\"bad\"";
  case Tone::open:
    return "class=\"open\"";
  }
  return "";
}

/// Whether a unit, and nothing longer, stands at the head of a text.
bool begins_with_unit(std::string_view text) {
  constexpr std::array units{"%", "mm", "cm", "m", "m/s", "m2", "g",  "kg",   "J",    "mJ",
                             "W", "Wp", "V",  "A", "K",   "s",  "ms", "degC", "W/m2", "Hz"};
  return std::any_of(units.begin(), units.end(), [&](std::string_view unit) {
    return text.starts_with(unit) &&
           (text.size() == unit.size() || !is_letter_or_digit(text[unit.size()]));
  });
}

/// The text with no line's end between a number and its unit: the blank becomes U+00A0.
std::string with_units_held(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool after_number = i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9';
    const bool held = text[i] == ' ' && after_number && begins_with_unit(text.substr(i + 1));
    if (held) {
      out += "\u00A0";
    } else {
      out += text[i];
    }
  }
  return out;
}

std::string toned(const Runs& text) {
  std::string out;
  for (const Run& run : text) {
    const std::string words = html_escaped(with_units_held(run.text));
    out += run.tone == Tone::plain ? words : html_element("strong", words, class_of(run.tone));
  }
  return out;
}

/// The attributes of an <a>. Whoever follows a link to elsewhere does not tell there whence; on
/// paper its address stands behind the words ("spelled"), unless it is in them.
std::string link_attributes(const LinkedRuns& linked, const LinkTargets& targets) {
  const std::string_view link = linked.link;
  switch (link_kind(link)) {
  case LinkKind::none:
    break;
  case LinkKind::web:
    return "href=\"" + html_escaped(link) + "\" rel=\"noreferrer\"" +
           (says_where(linked) ? "" : " class=\"spelled\"");
  case LinkKind::beside:
    return "href=\"" + path_address(link) + '"';
  case LinkKind::within: {
    const std::string_view id = link.substr(1);
    targets.expect(id);
    const bool picture = targets.pictures.contains(id);
    return "href=\"#" + (picture ? figure_id(id) : std::string(id)) + '"';
  }
  }
  return {};
}

}  // namespace

std::string html_escaped(std::string_view raw) {
  const std::string text = printable(raw);
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size();) {
    const Character c = character_at(text, i);
    switch (c.code) {
    case U'&':
      out += "&amp;";
      break;
    case U'<':
      out += "&lt;";
      break;
    case U'>':
      out += "&gt;";
      break;
    case U'"':
      out += "&quot;";
      break;
    case U'\'':
      out += "&#39;";
      break;
    case 0xFFFE:
    case 0xFFFF:
      out += '?';
      break;
    default:
      out += text.substr(i, c.length);
    }
    i += c.length;
  }
  return out;
}

std::string html_element(std::string_view name, const std::string& inside,
                         std::string_view attributes) {
  std::string out = "<" + std::string(name);
  if (!attributes.empty()) out += ' ' + std::string(attributes);
  return out + '>' + inside + "</" + std::string(name) + '>';
}

std::string html_words(const Runs& text, const LinkTargets& targets) {
  std::string out;
  for (const LinkedRuns& group : by_link(text)) {
    const std::string attributes = link_attributes(group, targets);
    const std::string words = toned(group.runs);
    out += attributes.empty() ? words : html_element("a", words, attributes);
  }
  return out;
}

bool is_blank(const Runs& text) {
  return one_line(text).empty();
}

bool is_blank(std::string_view text) {
  return one_line(text).empty();
}

std::string figure_id(std::string_view id) {
  return std::string(id) + "_figure";
}

}  // namespace hailwright::detail
