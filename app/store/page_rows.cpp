#include "store/page_rows.h"

#include "base/text.h"
#include "store/big_endian.h"

#include <bit>
#include <cstring>
#include <fstream>
#include <iterator>

namespace fettle::store {
namespace {

constexpr int kIndexInner = 0x02, kTableInner = 0x05, kIndexLeaf = 0x0a, kTableLeaf = 0x0d;
constexpr std::size_t kFileHead = 100; // of the first page
constexpr std::size_t kMostColumns = 200;

bool is_leaf(int kind) {
    return kind == kTableLeaf || kind == kIndexLeaf;
}

// The whole number of 1 to 9 bytes at `at`, which is moved behind it.
std::optional<std::uint64_t> varint(std::span<const unsigned char> bytes, std::size_t& at) {
    std::uint64_t value = 0;
    for (int byte = 0; byte < 9; ++byte, ++at) {
        if (at >= bytes.size()) return std::nullopt;
        if (byte == 8) {
            value = value << 8 | bytes[at];
            break;
        }
        value = value << 7 | (bytes[at] & 0x7fu);
        if ((bytes[at] & 0x80u) == 0) break;
    }
    ++at;
    return value;
}

// How many bytes a value of this serial type takes; nothing for the two reserved ones.
std::optional<std::uint64_t> size_of(std::uint64_t type) {
    constexpr std::uint64_t kSizes[] = {0, 1, 2, 3, 4, 6, 8, 8, 0, 0};
    if (type < std::size(kSizes)) return kSizes[type];
    if (type < 12) return std::nullopt;
    return (type - 12) / 2;
}

Cell cell_of(std::uint64_t type, const unsigned char* at, std::size_t size) {
    if (type == 0) return std::monostate();
    if (type == 8 || type == 9) return static_cast<std::int64_t>(type - 8);
    if (type == 7) return std::bit_cast<double>(big_endian(at, 8));
    if (type <= 6) {
        const int unused = 64 - 8 * static_cast<int>(size);
        const auto raised = big_endian(at, static_cast<int>(size)) << unused;
        return static_cast<std::int64_t>(raised) >> unused; // with its sign
    }
    if (type % 2 == 1) return std::string(reinterpret_cast<const char*>(at), size);
    const auto begin = reinterpret_cast<const std::byte*>(at);
    return Blob(begin, begin + size);
}

// A record: the types of its values, then the values. Nothing unless all of it fits exactly.
std::optional<std::vector<Cell>> record(std::span<const unsigned char> bytes) {
    std::size_t at = 0;
    const auto head = varint(bytes, at);
    if (!head || *head < at || *head > bytes.size()) return std::nullopt;
    const auto types = bytes.first(static_cast<std::size_t>(*head));
    std::size_t value = types.size();
    std::vector<Cell> cells;
    while (at < types.size()) {
        const auto type = varint(types, at);
        const auto size = type ? size_of(*type) : std::nullopt;
        if (!size || *size > bytes.size() - value || cells.size() == kMostColumns)
            return std::nullopt;
        cells.push_back(cell_of(*type, bytes.data() + value, static_cast<std::size_t>(*size)));
        value += static_cast<std::size_t>(*size);
    }
    if (value != bytes.size()) return std::nullopt;
    return cells;
}

} // namespace

Result<PageRows> PageRows::read(const std::filesystem::path& file) {
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    std::vector<unsigned char> bytes(error ? 0 : size);
    std::ifstream stream(file, std::ios::binary);
    if (error || !stream.read(reinterpret_cast<char*>(bytes.data()),
                              static_cast<std::streamsize>(bytes.size())))
        return Failure{FailureKind::io,
                       "The file " + safe_utf8(file.native()) + " cannot be read."};
    return PageRows(std::move(bytes));
}

PageRows::PageRows(std::vector<unsigned char> bytes) : bytes_(std::move(bytes)) {
    if (bytes_.size() >= kFileHead) {
        const auto said = big_endian(bytes_.data() + 16, 2);
        const std::size_t size = said == 1 ? 65536 : static_cast<std::size_t>(said);
        if (size >= 512 && std::has_single_bit(size) && bytes_.size() % size == 0)
            page_size_ = size;
    }
    reached_.assign(bytes_.size() / page_size_ + 1, false); // a cut page at the end counts as gone
    mark_free_pages();
    read_roots();
}

int PageRows::user_version() const {
    return bytes_.size() < kFileHead ? 0 : static_cast<int>(number_at(bytes_.data() + 60));
}

void PageRows::mark_free_pages() {
    if (pages() == 0) return;
    std::uint32_t trunk = number_at(bytes_.data() + 32);
    while (trunk != 0 && trunk <= pages() && !reached_[trunk]) {
        reached_[trunk] = true;
        const unsigned char* at = bytes_.data() + (trunk - 1) * page_size_;
        const auto count = std::min<std::size_t>(number_at(at + 4), page_size_ / 4 - 2);
        for (std::size_t leaf = 0; leaf < count; ++leaf)
            if (const auto number = number_at(at + 8 + 4 * leaf); number <= pages())
                reached_[number] = true;
        trunk = number_at(at);
    }
}

// sqlite_schema: type, name, tbl_name, rootpage, sql.
void PageRows::read_roots() {
    const auto schema = table(1);
    roots_.damaged = schema.damaged > 0 || schema.rows.empty();
    for (const auto& [number, cells] : schema.rows) {
        if (cells.size() != 5 || cells[0] != Cell(std::string("table"))) continue;
        const auto* name = std::get_if<std::string>(&cells[1]);
        const auto* root = std::get_if<std::int64_t>(&cells[3]);
        if (name && root && *root > 1 && static_cast<std::uint64_t>(*root) <= pages())
            roots_.tables.emplace(*name, static_cast<std::uint32_t>(*root));
    }
}

std::optional<PageRows::Page> PageRows::page(std::uint32_t number) const {
    if (number == 0 || number > pages()) return std::nullopt;
    Page page;
    page.bytes = bytes_.data() + (number - 1) * page_size_;
    page.head = number == 1 ? kFileHead : 0;
    page.kind = page.bytes[page.head];
    page.cells = static_cast<std::size_t>(big_endian(page.bytes + page.head + 3, 2));
    const bool known = is_leaf(page.kind) || page.kind == kTableInner || page.kind == kIndexInner;
    if (!known || page.cells * 2 + page.head + 12 > page_size_) return std::nullopt;
    return page;
}

std::optional<std::size_t> PageRows::cell_at(const Page& page, std::size_t cell) const {
    const std::size_t list = page.head + (is_leaf(page.kind) ? 8 : 12);
    const auto at = static_cast<std::size_t>(big_endian(page.bytes + list + 2 * cell, 2));
    if (at < list + 2 * page.cells || at + 4 > page_size_) return std::nullopt;
    return at;
}

// What begins at `at` of the page and may go on in a chain of pages of its own.
std::optional<std::vector<unsigned char>> PageRows::payload(const Page& page, std::size_t at,
                                                            std::uint64_t size) const {
    if (size > bytes_.size()) return std::nullopt;
    const auto all = static_cast<std::size_t>(size);
    const std::size_t least = (page_size_ - 12) * 32 / 255 - 23;
    const std::size_t most =
        page.kind == kTableLeaf ? page_size_ - 35 : (page_size_ - 12) * 64 / 255 - 23;
    const std::size_t fitting = least + (all - std::min(all, least)) % (page_size_ - 4);
    const std::size_t here = all <= most ? all : fitting <= most ? fitting : least;
    if (at + here + (here < all ? 4 : 0) > page_size_) return std::nullopt;
    std::vector<unsigned char> bytes(page.bytes + at, page.bytes + at + here);
    std::uint32_t next = here < all ? number_at(page.bytes + at + here) : 0;
    while (bytes.size() < all) {
        if (next == 0 || next > pages()) return std::nullopt;
        const unsigned char* more = bytes_.data() + (next - 1) * page_size_;
        const auto part = std::min(all - bytes.size(), page_size_ - 4);
        bytes.insert(bytes.end(), more + 4, more + 4 + part);
        next = number_at(more);
    }
    if (next != 0) return std::nullopt; // longer than it says
    return bytes;
}

std::optional<RawRow> PageRows::row_at(const Page& page, std::size_t at) const {
    const std::span whole(page.bytes, page_size_);
    const auto size = varint(whole, at);
    RawRow row;
    if (!size) return std::nullopt;
    if (page.kind == kTableLeaf) {
        const auto number = varint(whole, at);
        if (!number) return std::nullopt;
        row.number = static_cast<std::int64_t>(*number);
    }
    const auto bytes = payload(page, at, *size);
    auto cells = bytes ? record(*bytes) : std::nullopt;
    if (!cells) return std::nullopt;
    row.cells = std::move(*cells);
    return row;
}

void PageRows::read_rows(const Page& page, RawTable& into) const {
    for (std::size_t cell = 0; cell < page.cells; ++cell) {
        auto at = cell_at(page, cell);
        if (at && page.kind == kIndexInner) *at += 4; // behind the page it leads to
        if (auto row = at ? row_at(page, *at) : std::nullopt)
            into.rows.push_back(std::move(*row));
        else
            ++into.damaged;
    }
}

RawTable PageRows::table(std::uint32_t root) {
    RawTable table;
    std::optional<bool> has_numbers; // whether it is a tree of rowids: of the first page
    std::vector<std::uint32_t> open{root};
    while (!open.empty()) {
        const auto number = open.back();
        open.pop_back();
        const auto at =
            number != 0 && number <= pages() && !reached_[number] ? page(number) : std::nullopt;
        const bool numbers = at && (at->kind == kTableLeaf || at->kind == kTableInner);
        if (!at || numbers != has_numbers.value_or(numbers)) {
            ++table.damaged;
            continue;
        }
        reached_[number] = true;
        has_numbers = numbers;
        if (at->kind != kTableInner) read_rows(*at, table);
        if (is_leaf(at->kind)) continue;
        open.push_back(number_at(at->bytes + at->head + 8)); // the last one, taken after the others
        for (std::size_t cell = at->cells; cell-- > 0;) {
            if (const auto where = cell_at(*at, cell))
                open.push_back(number_at(at->bytes + *where));
            else
                ++table.damaged;
        }
    }
    return table;
}

std::vector<std::vector<RawRow>> PageRows::stray_pages() {
    std::vector<std::vector<RawRow>> strays;
    for (std::uint32_t number = 1; number <= pages(); ++number) {
        const auto at = reached_[number] ? std::nullopt : page(number);
        if (!at || at->kind != kTableLeaf) continue;
        RawTable rows;
        read_rows(*at, rows);
        if (!rows.rows.empty()) strays.push_back(std::move(rows.rows));
    }
    return strays;
}

} // namespace fettle::store
