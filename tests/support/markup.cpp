#include "support/markup.hpp"

#include <algorithm>
#include <stdexcept>

namespace markup {

namespace {

class Reader {
public:
  explicit Reader(std::string_view text) : text_(text) {}

  std::vector<Element> read() {
    if (text_.starts_with("<!DOCTYPE html>")) at_ = 15;
    while (at_ < text_.size()) {
      if (text_[at_] == '<') {
        tag();
      } else {
        words();
      }
    }
    if (!open_.empty()) fail("<" + elements_[open_.back()].name + "> is never closed");
    if (elements_.empty()) fail("no element");
    return std::move(elements_);
  }

private:
  [[noreturn]] void fail(const std::string& what) const {
    const std::size_t from = at_ < 40 ? 0 : at_ - 40;
    throw std::runtime_error(what + " at byte " + std::to_string(at_) + ": ..." +
                             std::string(text_.substr(from, 80)));
  }

  [[nodiscard]] char now() const {
    if (at_ >= text_.size()) fail("the text ends too early");
    return text_[at_];
  }

  void expect(char c) {
    if (now() != c) fail(std::string("not a ") + c);
    ++at_;
  }

  void blanks() {
    while (now() == ' ' || now() == '\n')
      ++at_;
  }

  std::string name() {
    const auto is_name = [](char c) {
      return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
             c == '-' || c == ':';
    };
    std::string out;
    while (is_name(now()))
      out += text_[at_++];
    if (out.empty()) fail("no name");
    return out;
  }

  /// One character of text or of a value.
  std::string character() {
    const char c = now();
    if (c == '<') fail("a bare <");
    const auto byte = static_cast<unsigned char>(c);
    if ((byte < 0x20 && c != '\n') || byte == 0x7F) fail("a control character");
    if (c != '&') {
      ++at_;
      return {c};
    }
    const std::map<std::string_view, std::string> entities{
        {"&amp;", "&"}, {"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&#39;", "'"}};
    for (const auto& [entity, meaning] : entities) {
      if (text_.substr(at_).starts_with(entity)) {
        at_ += entity.size();
        return meaning;
      }
    }
    fail("a bare &");
  }

  void words() {
    const std::string piece = character();
    if (!open_.empty()) {
      elements_[open_.back()].text += piece;
    } else if (piece != "\n") {
      fail("text outside the outermost element");
    }
  }

  void tag() {
    expect('<');
    if (now() == '/') {
      ++at_;
      const std::string closed = name();
      expect('>');
      if (open_.empty() || elements_[open_.back()].name != closed)
        fail("</" + closed + "> closes nothing");
      open_.pop_back();
      return;
    }
    if (open_.empty() && !elements_.empty()) fail("a second outermost element");
    const std::size_t index = elements_.size();
    elements_.push_back({name(), {}, open_.empty() ? index : open_.back(), ""});
    attributes(elements_.back());
    if (now() == '/') {
      ++at_;
    } else {
      open_.push_back(index);
    }
    expect('>');
  }

  void attributes(Element& element) {
    for (blanks(); now() != '>' && now() != '/'; blanks()) {
      const std::string key = name();
      expect('=');
      expect('"');
      std::string value;
      while (now() != '"')
        value += character();
      ++at_;
      if (!element.attributes.emplace(key, value).second) fail("a second " + key);
    }
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<Element> elements_;
  std::vector<std::size_t> open_;
};

}  // namespace

std::vector<Element> read(std::string_view text) {
  return Reader(text).read();
}

std::size_t count(const std::vector<Element>& elements, std::string_view name) {
  return static_cast<std::size_t>(std::count_if(elements.begin(), elements.end(),
                                                [&](const Element& e) { return e.name == name; }));
}

}  // namespace markup
