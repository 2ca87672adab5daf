#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "hailwright/report/write_up.hpp"
#include "support/catch.hpp"

namespace hailwright::testing {

/// The report for machines, read back.
nlohmann::ordered_json json_of(const WriteUp& write_up);

/// docs/schemas/report.schema.json.
const nlohmann::json& report_schema();

/// Holds numbers of the judgement against those read back, bit for bit, and counts them.
struct BitByBit {
  void same(const nlohmann::ordered_json& j, double value) {
    REQUIRE(j.is_number());
    const bool equal = j.get<double>() == value;
    if (!equal) CHECK(j.get<double>() == value);
    differing += equal ? 0 : 1;
    ++numbers;
  }
  void number(const nlohmann::ordered_json& j, double value) { same(j.at("value"), value); }
  template <class Q>
  void number(const nlohmann::ordered_json& j, const std::optional<Q>& q) {
    REQUIRE(q.has_value() == !j.is_null());
    if (q) number(j, q->si());
  }
  void number(const nlohmann::ordered_json& j, const std::optional<double>& v) {
    REQUIRE(v.has_value() == !j.is_null());
    if (v) number(j, *v);
  }
  void freedom(const nlohmann::ordered_json& j, double dof) {
    if (std::isinf(dof)) {
      CHECK(j.at("value").is_null());
      CHECK(j.at("word") == "unlimited");
    } else {
      number(j, dof);
    }
  }
  void count(const nlohmann::ordered_json& j, int value) {
    CHECK(j == value);
    ++numbers;
  }
  template <class Q>
  void estimate(const nlohmann::ordered_json& j, const Estimate<Q>& e) {
    number(j, e.value.si());
    same(j.at("standard_uncertainty"), e.standard_u.si());
    freedom(j.at("degrees_of_freedom"), e.degrees_of_freedom);
  }
  template <class Q>
  void shot_quantity(const nlohmann::ordered_json& j, const std::optional<ShotQuantity>& s) {
    REQUIRE(s.has_value() == !j.is_null());
    if (!s) return;
    estimate(j.at("estimate"), combined<Q>(*s));
    number(j.at("estimate"), s->value);
    number(j.at("shared"), s->shared_u);
    number(j.at("own"), s->own_u);
    freedom(j.at("own_degrees_of_freedom"), s->own_dof);
    CHECK(j.at("supports_grade") == s->supports_grade);
    CHECK(j.at("nominal") == s->nominal);
    count(j.at("trials"), s->trials);
  }
  void loss(const nlohmann::ordered_json& j, const std::optional<LossEstimate>& e) {
    REQUIRE(e.has_value() == !j.is_null());
    if (!e) return;
    number(j.at("loss"), e->loss().si());
    same(j.at("loss").at("standard_uncertainty"), e->u_loss().si());
    number(j.at("interval").at("low"), e->low().si());
    number(j.at("interval").at("high"), e->high().si());
    number(j.at("log_ratio"), e->lambda);
    same(j.at("log_ratio").at("standard_uncertainty"), e->u_lambda);
    freedom(j.at("log_ratio").at("degrees_of_freedom"), e->degrees_of_freedom);
    number(j.at("log_ratio_half_width"), e->expanded);
    number(j.at("risk"), e->alpha);
  }
  int numbers = 0;
  int differing = 0;
};

}  // namespace hailwright::testing
