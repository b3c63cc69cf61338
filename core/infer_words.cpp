// The words and the JSON of core/infer.h.
#include "core/explain.h"
#include "core/infer.h"
#include "core/text_number.h"
#include "core/words.h"

namespace core {
namespace {

using Says = CommonReading::Says;

/// At most so many decimals, without needless zeros.
std::string rounded(double value, int decimals) {
  double scale = 1.0;
  for (int i = 0; i < decimals; ++i) scale *= 10.0;
  return write_number(std::floor(std::abs(value) * scale + 0.5) / scale);
}

/// Uncertainties keep two digits while they are small.
std::string pm(double value) { return fixed(value, value < 0.95 ? 1 : 0); }

std::string correction(double wca_deg) {
  const std::string degrees = rounded(wca_deg, 1);
  return degrees == "0" ? "0°" : degrees + "° " + side_text(wca_deg);
}

/// "0.4 NM past the inbound course"
std::string miss_text(double cross_nm) {
  if (std::abs(cross_nm) < 0.05) return text_of("core.infer.miss.on");
  return phrase(cross_nm < 0.0 ? "core.infer.miss.past" : "core.infer.miss.short",
                {{"nm", fixed(std::abs(cross_nm), 1)}});
}

std::string across_text(double from_right_kt) {
  const std::string kt = fixed(std::abs(from_right_kt), 0);
  if (kt == "0") return text_of("core.infer.part.none");
  return phrase("core.infer.part.across", {{"kt", kt}, {"side", side_text(from_right_kt)}});
}

std::string along_text(double against_kt) {
  const std::string kt = fixed(std::abs(against_kt), 0);
  if (kt == "0") return text_of("core.infer.part.none");
  return phrase(against_kt > 0.0 ? "core.infer.part.against" : "core.infer.part.with",
                {{"kt", kt}});
}

/// Parts of a wind, kt: x from the right of the inbound course, y against it.
Vec2 parts(const Setup& u, Wind wind) {
  const SinCos angle = sincos_deg(wind.from_deg - u.scenario.inbound_course_deg);
  return {wind.speed_kt * angle.sin, wind.speed_kt * angle.cos};
}

void tell_one(const Setup& u, const InferredWind& inferred, const Observed& seen,
              std::vector<std::string>& out) {
  if (seen.held_wca_deg) {
    const SinCos held = sincos_deg(*seen.held_wca_deg);
    out.push_back(phrase("core.infer.one.held",
                         {{"part", across_text(u.tas_kt * held.sin)},
                          {"pm", pm(u.tas_kt * held.cos * seen.wca_pm_deg * kDegToRad)}}));
    return;
  }
  const bool calm = u.wind.speed_kt < 0.5;
  const std::optional<OnTheLine> line = on_the_line(u, inferred.leg, seen);
  if (!line) {
    out.push_back(phrase("core.infer.one.none", {{"most", fixed(kMostWindKt, 0)}}));
    return;
  }
  const double from = line->speed_kt < 0.0 ? line->from_deg + 180.0 : line->from_deg;
  const char* key = !calm           ? "core.infer.one.line"
                    : seen.cross_nm ? "core.infer.one.square"
                                    : "core.infer.one.along";
  std::string sentence = phrase(key, {{"line", degrees_3(line->from_deg)},
                                      {"back", degrees_3(line->from_deg + 180.0)},
                                      {"from", degrees_3(from)},
                                      {"speed", fixed(std::abs(line->speed_kt), 0)}});
  const double more = line->speed_kt - u.wind.speed_kt;
  if (!calm) {
    const bool same = fixed(line->speed_kt, 0) == fixed(u.wind.speed_kt, 0);
    sentence += " " + phrase(same                   ? "core.infer.one.as_allowed"
                             : line->speed_kt < 0.0 ? "core.infer.one.opposite"
                             : more > 0.0           ? "core.infer.one.stronger"
                                                    : "core.infer.one.weaker",
                             {{"kt", fixed(u.wind.speed_kt, 0)}});
  }
  out.push_back(sentence);
}

void tell_reading(const Setup& u, const InferredWind& inferred, const Observed& seen,
                  std::vector<std::string>& out) {
  const CommonReading r = common_reading(u, inferred, seen);
  if (r.says == Says::nothing) return;
  const auto says_text = [](bool stronger) {
    return text_of(stronger ? "core.infer.stronger" : "core.infer.weaker");
  };
  const bool from_holding = dot(u.holding_axis, along(u.wind.from_deg)) > 0.0;
  std::string sentence =
      phrase(*seen.cross_nm < 0.0 ? "core.infer.reading.past" : "core.infer.reading.inside",
             {{"side", text_of(from_holding ? "core.side.holding" : "core.side.nonholding")},
              {"says", says_text(r.says == Says::stronger)}});
  if (inferred.usable()) {
    const char* key = r.verdict == CommonReading::Verdict::holds       ? "core.infer.reading.holds"
                      : r.verdict == CommonReading::Verdict::too_close ? "core.infer.reading.close"
                      : r.plan_is_to_blame                             ? "core.infer.reading.plan"
                                                                       : "core.infer.reading.other";
    sentence +=
        " " + phrase(key, {{"kt", pm(std::abs(r.more_kt))},
                           {"pm", pm(inferred.candidates.front().across_pm_kt)},
                           {"truth", says_text(r.more_kt > 0.0)},
                           {"miss", r.planned_cross_nm ? miss_text(*r.planned_cross_nm) : ""}});
  }
  out.push_back(sentence);
}

}  // namespace

std::string observed_text(const Observed& seen) {
  std::string out;
  const auto add = [&](const std::string& sentence) {
    if (!out.empty()) out += " ";
    out += sentence;
  };
  if (seen.cross_nm) {
    const std::string nm = rounded(*seen.cross_nm, 2);
    const char* key = nm == "0"              ? "core.infer.saw.on"
                      : *seen.cross_nm < 0.0 ? "core.infer.saw.past"
                                             : "core.infer.saw.short";
    add(phrase(key, {{"nm", nm}, {"pm", rounded(seen.cross_pm, 2)}}));
  }
  if (seen.inbound_s) {
    add(phrase("core.infer.took",
               {{"time", minutes(*seen.inbound_s)}, {"pm", rounded(seen.inbound_pm_s, 1)}}));
  }
  if (seen.held_wca_deg) {
    const std::string held = correction(*seen.held_wca_deg);
    add(phrase(held == "0°" ? "core.infer.held_none" : "core.infer.held",
               {{"wca", held}, {"pm", rounded(seen.wca_pm_deg, 1)}}));
  }
  return out.empty() ? text_of("core.infer.saw.nothing") : out;
}

std::string reason(const InferredWind& inferred) {
  constexpr std::string_view kKeys[] = {
      "",
      "core.infer.why.nothing",
      "core.infer.why.one_only",
      "core.infer.why.bad_input",
      "core.infer.why.no_leg",
      "core.infer.why.parallel",
      "core.infer.why.by_station",
      "core.infer.why.same_part",
      "core.infer.why.unexplained",
      "core.infer.why.contradict",
      "core.infer.why.loose",
      "core.infer.why.light",
      "core.infer.why.gave_up",
  };
  if (inferred.determined()) return {};
  const std::string_view key = kKeys[static_cast<int>(inferred.why)];
  if (inferred.candidates.empty()) return phrase(key, {{"most", fixed(kMostWindKt, 0)}});
  const WindCandidate& c = inferred.candidates.front();
  if (inferred.why == NoWind::loose && !(c.major_kt < 1000.0)) {
    return text_of(c.misfit > 1e-6 ? "core.infer.why.nearly" : "core.infer.why.blind");
  }
  // Each is given what it has a place for: of others the numbers may not exist.
  if (inferred.why == NoWind::loose || inferred.why == NoWind::light) {
    return phrase(key, {{"axis", degrees_3(c.major_deg)},
                        {"back", degrees_3(c.major_deg + 180.0)},
                        {"major", fixed(c.major_kt, 0)},
                        {"minor", pm(c.minor_kt)},
                        {"speed", fixed(c.wind.speed_kt, 0)}});
  }
  if (inferred.why != NoWind::contradict) return std::string(word(key));
  return phrase(key, {{"from", degrees_3(c.wind.from_deg)},
                      {"speed", fixed(c.wind.speed_kt, 0)},
                      {"miss", miss_text(c.cross_nm)},
                      {"time", minutes(c.inbound_s)},
                      {"wca", correction(c.held_wca_deg)}});
}

std::vector<std::string> tells(const Setup& u, const InferredWind& inferred, const Observed& seen) {
  std::vector<std::string> out;
  const bool nearly = inferred.why == NoWind::loose && seen.count() == 2 &&
                      !(inferred.candidates.front().major_kt < 1000.0);
  if (inferred.why == NoWind::one_only || inferred.why == NoWind::same_part ||
      (nearly && seen.held_wca_deg)) {
    tell_one(u, inferred, seen, out);
  }
  if (!inferred.candidates.empty()) {
    const std::vector<WindCandidate>& all = inferred.candidates;
    const WindCandidate& c = all.front();
    const bool three = seen.count() == 3;
    if (inferred.determined()) {
      out.push_back(phrase("core.infer.wind", {{"from", degrees_3(c.wind.from_deg)},
                                               {"from_pm", pm(c.from_pm_deg)},
                                               {"speed", fixed(c.wind.speed_kt, 0)},
                                               {"speed_pm", pm(c.speed_pm_kt)}}));
    }
    if (inferred.usable()) {
      if (three) {
        out.push_back(text_of(c.misfit <= 1.0 ? "core.infer.fit.well" : "core.infer.fit.roughly"));
      }
      for (std::size_t i = 1; i < all.size(); ++i) {
        out.push_back(phrase(three ? "core.infer.also.fit" : "core.infer.also.speed",
                             {{"from", degrees_3(all[i].wind.from_deg)},
                              {"speed", fixed(all[i].wind.speed_kt, 0)}}));
      }
      const Vec2 is = parts(u, c.wind);
      const Vec2 allowed = parts(u, u.wind);
      out.push_back(phrase("core.infer.parts", {{"across", across_text(is.x)},
                                                {"across_allowed", across_text(allowed.x)},
                                                {"along", along_text(is.y)},
                                                {"along_allowed", along_text(allowed.y)}}));
    } else if (inferred.why == NoWind::loose && c.across_pm_kt <= 0.5 * kLoosestKt) {
      out.push_back(phrase("core.infer.across", {{"part", across_text(parts(u, c.wind).x)},
                                                 {"pm", pm(c.across_pm_kt)}}));
    }
  }
  tell_reading(u, inferred, seen, out);
  return out;
}

std::vector<std::string> advice(const Setup& u, const InferredWind& inferred,
                                const Observed& seen) {
  std::vector<std::string> out;
  const NextLap next = next_lap(u, inferred, seen);
  if (inferred.usable()) {
    if (next.exact.exists()) {
      const bool early = next.exact.time_s <= -0.5;
      const bool timed = u.leg.kind == Leg::Kind::time;
      const char* key = timed ? (early ? "core.infer.next.early" : "core.infer.next.exact")
                              : (early ? "core.infer.next.early_nm" : "core.infer.next.exact_nm");
      out.push_back(phrase(key, {{"heading", degrees_3(next.exact.heading_deg)},
                                 {"time", minutes(std::abs(next.exact.time_s))},
                                 {"inbound", minutes(u.published_s)},
                                 {"nm", write_number(u.leg.value)}}));
    } else {
      out.push_back(phrase("core.infer.next.none", {{"reason", reason(next.exact.why)}}));
    }
  }
  const double wca = seen.held_wca_deg   ? *seen.held_wca_deg
                     : inferred.usable() ? inferred.candidates.front().held_wca_deg
                                         : 0.0;
  const auto thumb = [&](std::string_view key) {
    return phrase(key, {{"heading", degrees_3(next.thumb_heading_deg.value_or(0.0))},
                        {"wca", correction(wca)},
                        {"time", minutes(next.thumb_time_s.value_or(0.0))}});
  };
  std::string sentence;
  if (next.thumb_heading_deg && next.thumb_time_s) {
    sentence = thumb("core.infer.thumb.both");
  } else if (next.thumb_heading_deg) {
    sentence = thumb("core.infer.thumb.heading");
  } else if (next.thumb_time_s) {
    sentence = thumb("core.infer.thumb.time");
  }
  if (next.thumb.exists) {
    sentence += " " + (next.thumb.to_go_nm > 0.0 ? phrase("core.infer.thumb.gives",
                                                          {{"miss", miss_text(next.thumb.cross_nm)},
                                                           {"time", minutes(next.thumb.inbound_s)}})
                                                 : text_of("core.infer.thumb.behind"));
  }
  if (!sentence.empty()) out.push_back(sentence);
  return out;
}

namespace {

void write(Json& j, const Setup& u, const InferredWind& inferred, const Observed& seen) {
  j.open_object().field("determined", inferred.determined());
  j.key("why");
  inferred.determined() ? j.null() : j.text(reason(inferred));
  j.field("code", name_of(inferred.why)).field("seen", observed_text(seen));
  j.key("winds").open_array();
  if (inferred.usable()) {
    for (const WindCandidate& c : inferred.candidates) {
      j.open_object()
          .field("from_deg", c.wind.from_deg)
          .field("speed_kt", c.wind.speed_kt)
          .field("from_pm_deg", std::fmin(c.from_pm_deg, 180.0))
          .field("speed_pm_kt", c.speed_pm_kt)
          .field("major_kt", c.major_kt)
          .field("minor_kt", c.minor_kt)
          .field("major_deg", c.major_deg)
          .field("misfit", c.misfit)
          .close_object();
    }
  }
  j.close_array();
  const auto sentences = [&](std::string_view name, const std::vector<std::string>& all) {
    j.key(name).open_array();
    for (const std::string& sentence : all) j.text(sentence);
    j.close_array();
  };
  sentences("tells", tells(u, inferred, seen));
  sentences("advice", advice(u, inferred, seen));
  j.key("next");
  const ExactPlan exact = next_lap(u, inferred, seen).exact;
  if (exact.exists()) {
    j.open_object()
        .field("heading_deg", exact.heading_deg)
        .field("time_s", exact.time_s)
        .close_object();
  } else {
    j.null();
  }
  j.close_object();
}

}  // namespace

void write_inferred(Json& j, const Setup& u, const FlownLeg& leg, const Observed& seen) {
  write(j, u, infer_wind(u, leg, seen), seen);
}

void write_inferred(Json& j, const Setup& u, const Observed& seen) {
  write(j, u, infer_wind(u, seen), seen);
}

void write_inferred(Json& j, const Setup& u, const Flight& flight, const Observed& seen) {
  write(j, u, infer_wind(u, flight, seen), seen);
}

}  // namespace core
