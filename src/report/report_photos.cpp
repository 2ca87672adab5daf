#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "hailwright/report/write_up.hpp"
#include "report/judgement_looks.hpp"
#include "report/words.hpp"

namespace hailwright {

namespace {

/// Collects names, each file once, with all that is said of it.
class PhotoNames {
public:
  /// @param moment  what need not be said again of a photo that tells it already; empty: all is new
  void add(const std::string& file, const SourceSpan& where, const std::string& shows,
           const std::string& description, const std::string& moment = {}) {
    if (file.empty()) return;
    const std::string path = photo_path(file);
    const auto known = std::find_if(names_.begin(), names_.end(), [&](const PhotoName& name) {
      return photo_path(name.file) == path;
    });
    if (known == names_.end()) {
      names_.push_back({file, where, shows, description});
    } else if (moment.empty() || known->shows.find(moment) == std::string::npos) {
      known->shows += "; " + shows;
      known->description += ' ' + description;
    }
  }
  std::vector<PhotoName> take() { return std::move(names_); }

private:
  std::vector<PhotoName> names_;
};

std::string landing_text(const Shot& shot) {
  switch (shot.landing) {
  case Landing::miss:
    return "missed the panel";
  case Landing::broke:
    return "broke before the panel";
  case Landing::in:
  case Landing::offset:
  case Landing::at:
    break;
  }
  return "hit the panel";
}

void add_shots(const Test& test, PhotoNames& names) {
  for (const Shot& shot : test.record.shots) {
    const SeriesPlan& series = test.protocol.series.at(shot.series);
    const std::string& place = series.places.at(shot.place).name;
    names.add(shot.photo, shot.origin,
              fmt::format("Throw {}, aimed at place {} of {}", shot.number, place, series.name),
              fmt::format("Photo of throw {} of series {}, aimed at place {}, which {}.",
                          shot.number, series.name, place, landing_text(shot)));
  }
}

std::string seen_text(const Look& look) {
  std::vector<std::string> things;
  for (const Finding& f : look.saw)
    things.push_back(fmt::format("{} at {}", f.kind->word, f.where));
  return things.empty() ? "nothing was seen" : "seen were " + enumerate(things);
}

/// Findings first: they say more of a picture than the look does.
void add_looks(const Test& test, PhotoNames& names) {
  for (const Look& look : test.record.looks) {
    const std::string moment = capitalised(look_moment(look, test));
    for (const Finding& f : look.saw) {
      names.add(f.photo, f.origin, fmt::format("{}: {} at {}", moment, f.kind->word, f.where),
                fmt::format("Photo of the panel {}: {}, {}.", look_moment(look, test),
                            f.kind->meaning, f.where));
    }
    for (std::size_t i = 0; i < look.photos.size(); ++i) {
      names.add(look.photos[i], look.origin,
                look.photos.size() == 1 ? moment : fmt::format("{}, photo {}", moment, i + 1),
                fmt::format("Photo of the panel {}; {} in this look.", look_moment(look, test),
                            seen_text(look)),
                moment);
    }
  }
}

}  // namespace

std::string photo_path(const std::string& file) {
  return std::filesystem::path(file).lexically_normal().string();
}

std::vector<PhotoName> photos_named(const Test& test) {
  PhotoNames names;
  add_shots(test, names);
  add_looks(test, names);
  for (const RecordPhoto& photo : test.record.photos) {
    names.add(photo.file, photo.origin, photo.shows, fmt::format("Photo: {}.", photo.shows));
  }
  return names.take();
}

}  // namespace hailwright
