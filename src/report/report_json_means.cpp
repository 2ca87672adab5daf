#include "report/report_json_parts.hpp"

#include "report/report_json_words.hpp"

// With what the test was made: instruments, launcher, ice, and how speed was measured.

namespace hailwright::json {

namespace {

template <class Q>
Json error(const std::optional<Stated<Q>>& e, const Ledger& ledger) {
  if (!e) return nullptr;
  return {{"shape", word(e->shape)},
          {"relative", ledger.stated(e->relative, e->origin)},
          {"absolute", ledger.stated(e->absolute, e->origin)},
          {"digits", ledger.stated(e->digits, "1", e->origin)},
          {"degrees_of_freedom", degrees_of_freedom(e->degrees_of_freedom)}};
}

template <class Q>
Json tool(const Tool<Q>& t, const Ledger& ledger) {
  return {{"id", words_or_null(t.id)},
          {"error", error(t.error, ledger)},
          {"step", ledger.stated(t.step, t.origin)},
          {"between_stages", ledger.stated(t.between_stages, t.origin)}};
}

Json thermometer(const Thermometer& t, const Ledger& ledger) {
  return {{"id", words_or_null(t.id)},
          {"error", error(t.error, ledger)},
          {"each_time", error(t.each_time, ledger)},
          {"reads_at", t.where ? Json(word(*t.where)) : Json(nullptr)},
          {"infrared", t.infrared},
          {"one_per_panel", t.one_per_panel}};
}

Json tally(const std::optional<Tally>& t) {
  if (!t) return nullptr;
  return {{"tried", t->tried}, {"good", t->good}};
}

Json lengths(const std::vector<Length>& all, const SourceSpan& span, const Ledger& ledger) {
  Json list = Json::array();
  for (const Length d : all)
    list.push_back(ledger.stated(d, span));
  return list;
}

Json frames(const std::optional<double>& count, const SourceSpan& span, const Ledger& ledger) {
  return count ? ledger.stated(*count, "1", span) : Json(nullptr);
}

}  // namespace

Json tools(const Tools& t, const Ledger& ledger) {
  return {{"meter", tool(t.meter, ledger)},
          {"sun", tool(t.sun, ledger)},
          {"thermometer", thermometer(t.thermometer, ledger)},
          {"scales", tool(t.scales, ledger)},
          {"calipers", tool(t.calipers, ledger)}};
}

Json launch(const Launch& l, const Ledger& ledger) {
  return {{"kind", word(l.kind)},
          {"distance", ledger.stated(l.distance, l.origin)},
          {"height", ledger.stated(l.height, l.origin)},
          {"aim", words_or_null(l.aim)},
          {"tried", tally(l.tried)}};
}

Json speed_method(const SpeedMethod& s, const Ledger& ledger) {
  return {{"by", word(s.by)},
          {"way", word(s.way())},
          {"video", ledger.stated(s.video, s.origin)},
          {"length", ledger.stated(s.length, s.origin)},
          {"length_error", error(s.length_error, ledger)},
          {"speed_error", error(s.error, ledger)},
          {"to_panel", ledger.stated(s.to_panel, s.origin)},
          {"parallax", ledger.stated(s.parallax, s.origin)},
          {"rate_accuracy", ledger.stated(s.rate, s.origin)},
          {"drift", ledger.stated(s.drift, s.origin)}};
}

Json ice(const Ice& i, const Ledger& ledger) {
  return {{"water", words_or_null(i.water)},
          {"freezer", ledger.stated(i.freezer, i.origin)},
          {"weighed_together", i.weighed_together ? Json(*i.weighed_together) : Json(nullptr)},
          {"made", tally(i.made)}};
}

Json balls(const Record& record, const Ledger& ledger) {
  Json list = Json::array();
  for (const BallKind& b : record.balls) {
    list.push_back({{"kind", b.kind},
                    {"where", ledger.where(b.origin)},
                    {"count", b.count},
                    {"mass_together", ledger.stated(b.together, b.origin)},
                    {"diameters", lengths(b.diameters, b.origin, ledger)},
                    {"note", words_or_null(b.note)}});
  }
  return list;
}

Json trials(const Record& record, const Ledger& ledger) {
  Json list = Json::array();
  for (const Trial& t : record.trials) {
    list.push_back({{"setting", words_or_null(t.setting)},
                    {"where", ledger.where(t.origin)},
                    {"frames", frames(t.frames, t.origin, ledger)},
                    {"speed", ledger.stated(t.speed, t.origin)},
                    {"moved", ledger.stated(t.moved, t.origin)},
                    {"time", ledger.stated(t.time, t.origin)},
                    {"hit", t.hit}});
  }
  return list;
}

Json safety(const Protocol& protocol, const Ledger& ledger) {
  Json list = Json::array();
  for (const auto& [block, answers] : protocol.safety.blocks) {
    for (const auto& [key, answer] : answers) {
      list.push_back({{"block", block},
                      {"key", key},
                      {"answer", answer.text},
                      {"where", ledger.where(answer.origin)}});
    }
  }
  return list;
}

}  // namespace hailwright::json
