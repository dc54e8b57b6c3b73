#include "ui/beside/side_reading.h"

#include <filesystem>

namespace fettle::ui {

SideReading::SideReading(const Notebook& book, std::function<void()> wake, std::uintmax_t from)
    : book_(book), from_(from), work_(std::move(wake)) {}

bool SideReading::is_needed() const {
    std::error_code error;
    const auto size = std::filesystem::file_size(book_.folder() / "notebook.db", error);
    return !error && size >= from_;
}

std::optional<Failure> SideReading::open_reader() {
    if (reader_) return std::nullopt;
    auto reader = book_.also_to_read();
    if (!reader) return reader.failure();
    reader_.emplace(*std::move(reader));
    return std::nullopt;
}

} // namespace fettle::ui
