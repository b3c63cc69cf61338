#include "core/common_practice.h"

namespace core {

void write_practice(Json& j, const std::vector<PracticeItem>& items) {
  j.open_array();
  for (const PracticeItem& item : items) {
    j.open_object()
        .field("id", name_of(item.id))
        .field("title", item.title)
        .field("says", item.says)
        .field("today", item.today)
        .field("exact", item.exactly)
        .field("good", item.good)
        .field("words", item.words)
        .close_object();
  }
  j.close_array();
}

}  // namespace core
