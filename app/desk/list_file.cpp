#include "desk/list_file.h"

#include "base/text.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <iterator>

namespace fettle::desk {
namespace {

constexpr std::uintmax_t kMostBytes = 64U << 20; // a list of a million positions

} // namespace

Result<CsvTable> read_list_file(const std::filesystem::path& file, CsvText written_in) {
    const std::string name = safe_utf8(file.string());
    const auto cannot = [&](const std::string& why) {
        return Failure{FailureKind::io, name + " cannot be read: " + why + "."};
    };
    std::error_code error;
    if (std::filesystem::is_directory(file, error)) return cannot("it is a folder");
    const auto size = std::filesystem::file_size(file, error);
    if (!error && size > kMostBytes) return cannot("it is larger than 64 MiB, no parts list is");
    errno = 0;
    std::ifstream in(file, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (!in) return cannot(std::strerror(errno ? errno : EIO));
    auto table = read_csv(text, written_in);
    if (!table) return Failure{FailureKind::invalid, name + " " + table.failure().sentence + "."};
    return table;
}

} // namespace fettle::desk
