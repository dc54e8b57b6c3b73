#include "photos/camera_samples.h"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include <fstream>

namespace photo_tests {
namespace {

const std::filesystem::path kPackage = "/usr/share/gocode/src/github.com/rwcarlsen/goexif/exif";

// `	Tag:   `value`,` -> tag and value.
std::optional<std::pair<std::string, std::string>> tag_line(const std::string& line) {
    const auto colon = line.find(':');
    const auto open = line.find('`'), close = line.rfind('`');
    if (colon == line.npos || open == line.npos || close == open || colon > open) return {};
    const auto start = line.find_first_not_of('\t');
    return std::pair(line.substr(start, colon - start), line.substr(open + 1, close - open - 1));
}

} // namespace

std::string ExpectedTags::text(const std::string& tag) const {
    const auto found = tags_.find(tag);
    if (found == tags_.end()) return {};
    auto text = nlohmann::json::parse(found->second).get<std::string>();
    text.erase(text.find_last_not_of(" \n\t") + 1);
    return text;
}

std::optional<long> ExpectedTags::number(const std::string& tag) const {
    const auto found = tags_.find(tag);
    if (found == tags_.end()) return {};
    return nlohmann::json::parse(found->second).get<long>();
}

std::vector<double> ExpectedTags::fractions(const std::string& tag) const {
    const auto found = tags_.find(tag);
    if (found == tags_.end()) return {};
    auto list = nlohmann::json::parse(found->second);
    if (!list.is_array()) list = nlohmann::json::array({list});
    std::vector<double> values;
    for (const auto& item : list) {
        const auto text = item.get<std::string>();
        const auto slash = text.find('/');
        if (slash == text.npos) return {};
        values.push_back(std::stod(text) / std::stod(text.substr(slash + 1)));
    }
    return values;
}

std::filesystem::path camera_samples_folder() {
    return kPackage / "samples";
}

std::map<std::string, ExpectedTags> camera_samples() {
    std::ifstream stream(kPackage / "regress_expected_test.go");
    REQUIRE_MESSAGE(stream.good(), "install the package golang-github-rwcarlsen-goexif-dev");
    std::map<std::string, ExpectedTags> samples;
    std::map<std::string, std::string> tags;
    std::string file;
    for (std::string line; std::getline(stream, line);) {
        if (line.starts_with("\t\"")) {
            file = line.substr(2, line.find('"', 2) - 2);
        } else if (line == "\t}," || line == "\t}") {
            samples.emplace(file, ExpectedTags(std::exchange(tags, {})));
        } else if (auto tag = tag_line(line)) {
            tags.insert(std::move(*tag));
        }
    }
    REQUIRE(samples.size() == 57);
    return samples;
}

} // namespace photo_tests
