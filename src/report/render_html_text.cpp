#include "report/render_html_text.hpp"

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

std::string toned(const Runs& text) {
  std::string out;
  for (const Run& run : text) {
    const std::string words = html_escaped(run.text);
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
