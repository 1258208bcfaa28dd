// Writes pages and pictures of made-up studies into a folder, for a browser to open.

#include "postprocess/study/study_page.h"
#include "tests/support/study_fixture.h"

#include <filesystem>
#include <fstream>

using namespace throughbend;

namespace
{
void write(const std::filesystem::path &file, const std::string &text)
{
  std::ofstream(file, std::ios::binary) << text;
}
} // namespace

int main(int, char **argv)
{
  const std::filesystem::path folder = argv[1];
  const auto                  page = [&](const std::string &name, const StudyRecord &record)
  {
    write(folder / (name + ".html"), make_study_page(record, UnitSystem::metric).page);
    for (const StudyPicture &picture : study_pictures(record, UnitSystem::metric))
    {
      write(folder / (name + "-" + picture.name + ".svg"), picture.drawing.svg());
      write(folder / (name + "-" + picture.name + ".png"), picture.drawing.png(2));
    }
  };
  page("map", made_up_map(12, 9, 1));
  page("refined", made_up_refined_map());
  page("strip", made_up_map(14, 1, 1));
  page("cube", made_up_map(5, 5, 3));
  page("limit", made_up_limits());
  page("spread", made_up_spread(400));
  page("choice", made_up_choice());
  write(folder / "class.html",
        make_class_page(made_up_map(5, 5, 3), UnitSystem::metric).page);
  write(folder / "us.html", make_study_page(made_up_map(6, 5, 1), UnitSystem::us).page);

  StudyRecord hostile = made_up_map(4, 3, 1);
  hostile.title       = "<script>alert(1)</script><img src=x onerror=alert(2)> & \"title\" "
                        "</title>{{css}}";
  hostile.keys[0].key = "coupon.<b>thick\"ness</b>";
  hostile.keys[1].unit = "</script><script>alert(3)</script>";
  hostile.case_text += "# </pre><script>alert(4)</script>\n";
  hostile.answers = "{}";
  for (StudyPass &pass : hostile.passes)
    pass.verdict = "</script><script>alert(5)</script>\xff<!--";
  hostile.whole = false;
  page("hostile", hostile);
  write(folder / "hostile-class.html", make_class_page(hostile, UnitSystem::metric).page);
}
