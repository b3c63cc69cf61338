#include "web/locks.h"

#include <algorithm>

namespace web {

namespace {

std::string_view key_of(core::Handle handle) {
  switch (handle) {
    case core::Handle::none:
      break;
    case core::Handle::wind:
      return "wind";
    case core::Handle::inbound:
      return "inbound";
    case core::Handle::arrival:
      return "arrive";
    case core::Handle::turns:
      return "turns";
  }
  return {};
}

}  // namespace

void Locks::set(std::string_view keys, std::string_view link) {
  fixed_ = core::parse_link(link).scenario;
  keys_.clear();
  // In the link's order: the book first sets what it fills, and a fixed key then has the last word.
  const auto named = [&](std::string_view key) {
    for (std::size_t at = 0; at < keys.size();) {
      const std::size_t end = std::min(keys.find(' ', at), keys.size());
      if (keys.substr(at, end - at) == key) return true;
      at = end + 1;
    }
    return false;
  };
  if (named("book")) keys_.emplace_back("book");
  for (std::size_t i = 0; i < core::key_count(); ++i) {
    const std::string_view key = core::key_name(i);
    if (key != "book" && named(key)) keys_.emplace_back(key);
  }
}

core::Scenario Locks::held(const core::Scenario& wanted) const {
  core::Scenario s = wanted;
  const auto differs = [&](const std::string& key) {
    return core::value_text(s, key) != core::value_text(fixed_, key);
  };
  core::Problem unread;
  for (const std::string& key : keys_) {
    // Of the two airspeed keys the one that is not in use has no text.
    const std::string value = core::value_text(fixed_, key);
    if (differs(key) && !(value.empty() && (key == "ias" || key == "tas"))) {
      core::set_value(s, key, value, unread);
    }
  }
  return std::any_of(keys_.begin(), keys_.end(), differs) ? fixed_ : s;
}

bool Locks::has(core::Handle handle) const {
  return std::find(keys_.begin(), keys_.end(), key_of(handle)) != keys_.end();
}

}  // namespace web
