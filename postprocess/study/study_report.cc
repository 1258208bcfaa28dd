#include "postprocess/study/study_report.h"

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/pictures/picture_folder.h"
#include "postprocess/study/study_page.h"
#include "solver/study/file/study_file.h"

#include <algorithm>
#include <iostream>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

const std::string name_start = "study_";

constexpr double dots = 3; ///< of a PNG file per unit: 1500 across

/// In place of those of an earlier report.
void save_study_pictures(const fs::path &folder, const std::vector<StudyPicture> &pictures)
{
  const PictureFolder place(folder, name_start, {".png", ".svg"});
  for (const StudyPicture &picture : pictures)
  {
    place.save(name_start + picture.name + ".svg", picture.drawing.svg());
    place.save(name_start + picture.name + ".png", picture.drawing.png(dots));
  }
}
} // namespace

bool is_study_order(const ReportOrder &order)
{
  const auto found = std::find_if(order.runs.begin(), order.runs.end(), is_study);
  if (found == order.runs.end())
  {
    if (!order.class_page.empty())
      throw InputError("--class: " + order.runs.front() +
                       " holds no study. A class page is made of a map: throughbend map "
                       "CASE --along KEY=FROM..TO/N");
    return false;
  }
  if (order.runs.size() > 1)
    throw InputError(*found + " is a study and has a page of its own. Report it alone.");
  if (!order.index.empty() || !order.at.empty())
    throw InputError(*found +
                     " is a study: --index and --at are for runs. Leave them out.");
  return true;
}

void report_study(const ReportOrder &order)
{
  check_place("page", order.page, report_mark, order.foreign);
  if (!order.class_page.empty())
  {
    check_place("class", order.class_page, report_mark, order.foreign);
    if (fs::weakly_canonical(order.page) == fs::weakly_canonical(order.class_page))
      throw InputError("--class " + order.class_page +
                       ": that is where the study's page goes. Choose another name.");
  }
  const fs::path    study  = order.runs.front();
  const StudyRecord record = read_study(study);
  // All is made before anything is written: a study without a class page leaves nothing.
  const StudyPage page = make_study_page(record, order.units);
  const StudyPage class_page =
      order.class_page.empty() ? StudyPage() : make_class_page(record, order.units);
  for (const std::string &note : page.notes)
    std::cerr << "note: " << shown_text(study.string() + ": " + note) << '\n';
  if (order.pictures == Pictures::drawn)
    if (const auto pictures = study_pictures(record, order.units); !pictures.empty())
    {
      save_study_pictures(study / "pictures", pictures);
      std::cout << "pictures  " << shown_text((study / "pictures").string()) << '\n';
    }
  save_page(order.page, page.page);
  std::cout << "page      " << shown_text(order.page) << '\n';
  if (order.class_page.empty())
    return;
  save_page(order.class_page, class_page.page);
  std::cout << "class     " << shown_text(order.class_page) << '\n';
}
} // namespace throughbend
