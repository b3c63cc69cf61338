// Progress files: any text is progress with problems, or said to be none; what is written is
// read back the same.
#include "core/progress.h"

#include "tests/fuzz/must.h"
#include "web/tutor.h"

using namespace core;
using fuzz::must;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::text_of(data, size);
  const ReadProgress r = read_progress(text);
  fuzz::must_be_problems(r.problems, kMostProgressProblems + 1, text);
  must(r.usable || !r.problems.empty(), "what is no progress file is said to be none");
  must(r.progress.checks.size() <= kMostChecks, "checks are bounded");
  for (const CheckRecord& c : r.progress.checks) {
    must(c.tries >= 1 && c.best.all_right() <= c.best.all(), "a check's figures agree");
  }
  const std::string written = write_progress(r.progress);
  fuzz::must_be_json(written, text, 60000);
  const ReadProgress again = read_progress(written);
  must(again.usable && again.problems.empty(), "what is written has no problem", written);
  must(write_progress(again.progress) == written, "and is written the same again", written);

  web::Tutor tutor;
  tutor.today(20000);
  fuzz::must_be_json(tutor.take_progress(text), text, 100000);
  must(!r.usable || tutor.progress() == written, "the tutor takes the same", written);
  if (size % 8 == 0) fuzz::must_be_json(tutor.begin("practice", "", ""), text, 100000);
  return 0;
}
