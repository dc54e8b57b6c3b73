// The 57 camera files of Debian's golang-github-rwcarlsen-goexif-dev and the tag values its authors
// expect of them (regress_expected_test.go, a Go map from file to tag to value).
#pragma once

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace photo_tests {

class ExpectedTags {
  public:
    explicit ExpectedTags(std::map<std::string, std::string> tags) : tags_(std::move(tags)) {}
    // "" when the tag is not there; text as it stands, without padding at its end.
    std::string text(const std::string& tag) const;
    std::optional<long> number(const std::string& tag) const;
    // The fractions of a list: ["59/1","19/1","5717/100"]; one fraction is a list of one.
    std::vector<double> fractions(const std::string& tag) const;

  private:
    std::map<std::string, std::string> tags_; // values as JSON
};

std::filesystem::path camera_samples_folder();
// The test fails when the package is not installed.
std::map<std::string, ExpectedTags> camera_samples();

} // namespace photo_tests
