// Rows in columns of even width, for a terminal.
#pragma once
#include <iosfwd>
#include <string>
#include <vector>

namespace evet {

class TextTable {
 public:
  // A heading that begins with '>' has its column set to the right.
  explicit TextTable(std::vector<std::string> headings);
  void row(std::vector<std::string> cells);
  bool empty() const { return rows_.size() == 1; }
  // Control characters in cells are written out, so that no name can garble the terminal.
  void print(std::ostream& out, bool colour) const;

 private:
  std::vector<bool> right_;
  std::vector<std::vector<std::string>> rows_;
};

// 0.973 -> "0.97"; what is not quite 0 or 1 is never shown as such: "<0.01", ">0.99".
std::string probability_text(double p);

}  // namespace evet
