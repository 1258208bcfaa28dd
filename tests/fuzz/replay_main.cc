// Feeds the target with every file of the corpus, as a fuzzer would, and some hundred
// spoiled forms of each: a build without a fuzzer so holds what one has found.

#include "tests/fuzz/fuzz_target.h"
#include "tests/fuzz/spoiler.h"
#include "tests/support/scratch_folder.h"

#include <algorithm>
#include <iostream>
#include <vector>

using namespace throughbend;

namespace
{
void feed(const std::string &text)
{
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t *>(text.data()), text.size());
}
} // namespace

int main(int argc, char **argv)
{
  if (argc < 2)
  {
    std::cerr << "replay which corpus? replay_TARGET FOLDER [SPOILED_FORMS]\n";
    return 2;
  }
  const int                          forms = argc > 2 ? std::stoi(argv[2]) : 100;
  std::vector<std::filesystem::path> files;
  for (const auto &entry : std::filesystem::directory_iterator(argv[1]))
    files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  Spoiler spoiler(1);
  for (const std::filesystem::path &file : files)
  {
    const std::string text = content(file);
    feed(text);
    for (int i = 0; i < forms; ++i)
      feed(spoiler.spoiled(text));
  }
  std::cout << files.size() << " files, "
            << files.size() * (1u + static_cast<unsigned>(forms)) << " texts read\n";
  return files.empty() ? 1 : 0;
}
