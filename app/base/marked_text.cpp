#include "base/marked_text.h"

#include "base/names_in_text.h"
#include "base/text.h"

#include <md4c.h>

#include <algorithm>
#include <cctype>
#include <functional>
#include <optional>
#include <utility>

namespace fettle {
namespace {

constexpr std::string_view kBlanks = " \t";

// Stands in for signs that are not to be taken for marks, in a copy of the same length: what is
// said is cut from the text itself. None of these is in a text (see `tidied`).
constexpr std::string_view kSigns = ":*-=\\&", kHidden = "\x01\x02\x03\x04\x05\x06";

void hide(char& sign) {
    sign = kHidden[kSigns.find(sign)];
}

char shown(char sign) {
    const auto at = kHidden.find(sign);
    return at == std::string_view::npos ? sign : kSigns[at];
}

// Valid UTF-8, every line ended by \n, no control characters.
std::string tidied(std::string_view text) {
    std::string tidy;
    const std::string safe = safe_utf8(text);
    for (std::size_t at = 0; at < safe.size(); ++at) {
        const char letter = safe[at];
        if (letter == '\r') {
            if (at + 1 == safe.size() || safe[at + 1] != '\n') tidy += '\n';
            continue;
        }
        const bool control = static_cast<unsigned char>(letter) < 0x20 || letter == 0x7f;
        tidy += control && letter != '\n' && letter != '\t' ? ' ' : letter;
    }
    return tidy;
}

// Part of a word or figure; of signs beyond ASCII all but dashes, quotation marks and the like
// (U+2000 to U+207F) and « ».
bool in_word(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (byte(at) < 0x80) return std::isalnum(byte(at)) != 0;
    while (at > 0 && (byte(at) & 0xC0U) == 0x80)
        --at;
    if (at + 1 == text.size()) return false;
    const unsigned two = byte(at) * 256U + byte(at + 1);
    return two != 0xE280 && two != 0xE281 && two != 0xC2AB && two != 0xC2BB;
}

void hide_stars_in_words(std::string_view text, std::string& copy) {
    for (auto from = text.find('*'); from != std::string_view::npos; from = text.find('*', from)) {
        const auto to = std::min(text.find_first_not_of('*', from), text.size());
        if (from > 0 && to < text.size() && in_word(text, from - 1) && in_word(text, to))
            std::for_each(copy.begin() + std::ptrdiff_t(from), copy.begin() + std::ptrdiff_t(to),
                          hide);
        from = to;
    }
}

// Lines of - or = would make a heading of the words above. Three - stay a rule: as * they are
// nothing else.
void hide_underlines(std::string_view text, std::string& copy) {
    std::size_t begins = 0;
    for (const auto line : split(text, '\n')) {
        const auto from = line.find_first_not_of(" \t>");
        if (from != std::string_view::npos && (line[from] == '-' || line[from] == '=')) {
            const auto to = std::min(line.find_first_not_of(line[from], from), line.size());
            const bool alone = line.find_first_not_of(kBlanks, to) == std::string_view::npos;
            const auto sign = copy.begin() + std::ptrdiff_t(begins + from);
            const std::size_t count = alone ? to - from : 0;
            if (count == 2 || (count > 0 && line[from] == '='))
                hide(*sign);
            else if (count > 0) // one is an item without words
                std::fill_n(sign, count, '*');
        }
        begins += line.size() + 1;
    }
}

// What stands behind ``` or ~~~ is shown, so it is as it was typed.
void hide_escapes_beside_fences(std::string_view text, std::string& copy) {
    std::size_t begins = 0;
    for (const auto line : split(text, '\n')) {
        const auto fence = line.find_first_not_of(" \t>*+-0123456789.)");
        const auto opens = line.substr(std::min(fence, line.size()), 3);
        if (opens == "```" || opens == "~~~")
            for (std::size_t at = begins + fence; at < begins + line.size(); ++at)
                if (copy[at] == '\\' || copy[at] == '&') hide(copy[at]);
        begins += line.size() + 1;
    }
}

std::string shielded(std::string_view text) {
    std::string copy(text);
    for (auto at = text.find("]:"); at != std::string_view::npos; at = text.find("]:", at + 1))
        hide(copy[at + 1]);
    hide_escapes_beside_fences(text, copy);
    hide_stars_in_words(text, copy);
    hide_underlines(text, copy);
    return copy;
}

bool set_alike(const TextRun& one, const TextRun& other) {
    return one.strong == other.strong && one.emphasis == other.emphasis && one.code == other.code &&
           one.leads_to == other.leads_to;
}

// What md4c tells, block by block and piece by piece, put together.
class Builder {
  public:
    explicit Builder(std::string_view text) : text_(text), copy_(shielded(text)) {}

    std::vector<TextBlock> build();

  private:
    using Kind = TextBlock::Kind;
    struct List {
        bool numbered = false;
        char sign = 0;
    };

    static Builder& of(void* self) { return *static_cast<Builder*>(self); }
    void enter_block(MD_BLOCKTYPE type, void* detail);
    void leave_block(MD_BLOCKTYPE type);
    void enter_span(MD_SPANTYPE type, void* detail);
    void leave_span(MD_SPANTYPE type, void* detail);
    void say(MD_TEXTTYPE type, std::string_view piece);

    void open_container(Kind kind, std::string mark);
    void close_container();
    void open_words(Kind kind, int level = 0);
    void close_words();
    void add(std::string_view words);
    void add_address(const MD_ATTRIBUTE& leads_to, const MD_ATTRIBUTE& title);
    bool address_itself(const MD_ATTRIBUTE& leads_to) const;
    std::string leads_last() const;
    std::string next_mark(const List& list);
    std::optional<std::size_t> place_of(std::string_view piece) const;
    std::string original(std::string_view piece);
    std::string original(const MD_ATTRIBUTE& attribute);

    std::string_view text_;
    std::string copy_;
    std::size_t told_ = 0;                                    // up to here md4c has told the text
    std::vector<TextBlock> open_ = std::vector<TextBlock>(1); // the text, what is open within it
    int too_deep_ = 0;       // containers that are open but not kept
    std::string mark_ahead_; // of an item that is not kept, for the next words
    bool in_words_ = false;  // the innermost open block has runs
    std::vector<List> lists_;
    int strong_ = 0, emphasis_ = 0, code_ = 0;
    std::string leads_to_; // of the name that is being told
};

std::vector<TextBlock> Builder::build() {
    MD_PARSER parser{};
    parser.flags = MD_FLAG_NOINDENTEDCODEBLOCKS | MD_FLAG_NOHTML;
    parser.enter_block = [](MD_BLOCKTYPE type, void* detail, void* self) {
        of(self).enter_block(type, detail);
        return 0;
    };
    parser.leave_block = [](MD_BLOCKTYPE type, void*, void* self) {
        of(self).leave_block(type);
        return 0;
    };
    parser.enter_span = [](MD_SPANTYPE type, void* detail, void* self) {
        of(self).enter_span(type, detail);
        return 0;
    };
    parser.leave_span = [](MD_SPANTYPE type, void* detail, void* self) {
        of(self).leave_span(type, detail);
        return 0;
    };
    parser.text = [](MD_TEXTTYPE type, const MD_CHAR* piece, MD_SIZE size, void* self) {
        of(self).say(type, {piece, size});
        return 0;
    };
    const bool read =
        md_parse(copy_.data(), static_cast<MD_SIZE>(copy_.size()), &parser, this) == 0;
    if (!read) return {{Kind::paragraph, {{std::string(text_)}}}}; // no memory was left for it
    close_words();
    if (!mark_ahead_.empty()) {
        open_words(Kind::paragraph);
        close_words();
    }
    return std::move(open_.front().inside);
}

void Builder::enter_block(MD_BLOCKTYPE type, void* detail) {
    close_words(); // those of an item whose lines stand close have no block of their own
    switch (type) {
    case MD_BLOCK_QUOTE:
        return open_container(Kind::quote, {});
    case MD_BLOCK_UL:
        return lists_.push_back({false, static_cast<MD_BLOCK_UL_DETAIL*>(detail)->mark});
    case MD_BLOCK_OL:
        return lists_.push_back({true, static_cast<MD_BLOCK_OL_DETAIL*>(detail)->mark_delimiter});
    case MD_BLOCK_LI:
        return open_container(Kind::item, next_mark(lists_.back()));
    case MD_BLOCK_HR:
        return open_.back().inside.push_back({Kind::rule});
    case MD_BLOCK_H:
        return open_words(Kind::heading,
                          static_cast<int>(static_cast<MD_BLOCK_H_DETAIL*>(detail)->level));
    case MD_BLOCK_CODE:
        open_words(Kind::code);
        if (const auto info = original(static_cast<MD_BLOCK_CODE_DETAIL*>(detail)->info);
            !info.empty())
            add(info + "\n");
        return;
    case MD_BLOCK_P:
        return open_words(Kind::paragraph);
    default:
        return;
    }
}

void Builder::leave_block(MD_BLOCKTYPE type) {
    close_words();
    if (type == MD_BLOCK_UL || type == MD_BLOCK_OL) lists_.pop_back();
    if (type == MD_BLOCK_QUOTE || type == MD_BLOCK_LI) close_container();
}

void Builder::enter_span(MD_SPANTYPE type, void* detail) {
    if (!in_words_) open_words(Kind::paragraph);
    if (type == MD_SPAN_A) {
        const auto& link = *static_cast<MD_SPAN_A_DETAIL*>(detail);
        const std::string_view target(link.href.text, link.href.size);
        if (link.title.size == 0 && name_of_target(target)) leads_to_ = target;
    }
    if (type == MD_SPAN_STRONG) ++strong_;
    if (type == MD_SPAN_EM) ++emphasis_;
    if (type == MD_SPAN_CODE) ++code_;
}

void Builder::leave_span(MD_SPANTYPE type, void* detail) {
    if (type == MD_SPAN_STRONG) --strong_;
    if (type == MD_SPAN_EM) --emphasis_;
    if (type == MD_SPAN_CODE) --code_;
    if (type == MD_SPAN_A) {
        const auto& link = *static_cast<MD_SPAN_A_DETAIL*>(detail);
        const std::string name = std::exchange(leads_to_, {});
        if (!name.empty() && name == leads_last())
            (void)original(link.href); // told, though not shown
        else if (!address_itself(link.href))
            add_address(link.href, link.title);
    }
    if (type == MD_SPAN_IMG) {
        const auto& image = *static_cast<MD_SPAN_IMG_DETAIL*>(detail);
        add_address(image.src, image.title);
    }
}

void Builder::say(MD_TEXTTYPE type, std::string_view piece) {
    if (!in_words_) open_words(Kind::paragraph);
    add(type == MD_TEXT_BR || type == MD_TEXT_SOFTBR ? "\n" : original(piece));
}

void Builder::open_container(Kind kind, std::string mark) {
    if (open_.size() > kDeepestBlock) {
        ++too_deep_;
        if (!mark.empty()) mark_ahead_ += mark + " ";
        return;
    }
    open_.push_back({kind});
    open_.back().mark = std::move(mark);
}

void Builder::close_container() {
    if (too_deep_ > 0) {
        --too_deep_;
        return;
    }
    TextBlock closed = std::move(open_.back());
    open_.pop_back();
    if (closed.kind == Kind::item || !closed.inside.empty())
        open_.back().inside.push_back(std::move(closed));
}

void Builder::open_words(Kind kind, int level) {
    open_.push_back({kind, {}, level});
    in_words_ = true;
    if (!mark_ahead_.empty()) add(std::exchange(mark_ahead_, {}));
}

void Builder::close_words() {
    if (!in_words_) return;
    in_words_ = false;
    TextBlock closed = std::move(open_.back());
    open_.pop_back();
    if (!closed.runs.empty() && closed.runs.back().text.ends_with('\n'))
        closed.runs.back().text.pop_back(); // of the last line of code
    std::erase_if(closed.runs, [](const TextRun& run) { return run.text.empty(); });
    if (!closed.runs.empty()) open_.back().inside.push_back(std::move(closed));
}

void Builder::add(std::string_view words) {
    auto& runs = open_.back().runs;
    TextRun like{{}, strong_ > 0, emphasis_ > 0, code_ > 0, leads_to_};
    if (runs.empty() || !set_alike(runs.back(), like)) runs.push_back(std::move(like));
    runs.back().text += words;
}

// Where the last words lead to: a name without words would be lost with its target.
std::string Builder::leads_last() const {
    const auto& runs = open_.back().runs;
    return runs.empty() || runs.back().text.empty() ? std::string() : runs.back().leads_to;
}

void Builder::add_address(const MD_ATTRIBUTE& leads_to, const MD_ATTRIBUTE& title) {
    for (const MD_ATTRIBUTE* attribute : {&leads_to, &title}) {
        const std::string said = original(*attribute);
        const auto& runs = open_.back().runs;
        const bool apart = runs.empty() || runs.back().text.empty() ||
                           runs.back().text.back() == ' ' || runs.back().text.back() == '\n';
        if (!said.empty()) add((apart ? "(" : " (") + said + ")");
    }
}

// <http://...>: where it leads to has just been told, as the words of the link.
bool Builder::address_itself(const MD_ATTRIBUTE& leads_to) const {
    std::string_view address(leads_to.text, leads_to.size);
    const auto place = place_of(address);
    if (place && *place >= told_) return false;
    constexpr std::string_view kMail = "mailto:"; // md4c puts it before <someone@example.org>
    const std::string_view told = std::string_view(copy_).substr(0, told_);
    if (!told.ends_with(address) && address.starts_with(kMail)) address.remove_prefix(kMail.size());
    return told.ends_with(address) && told_ < copy_.size() && copy_[told_] == '>';
}

// As it was typed; md4c counts on from the first number. The next one stands at the start of a line
// below what has been told, behind nothing but marks.
std::string Builder::next_mark(const List& list) {
    if (!list.numbered) return list.sign == '+' ? "+" : "•";
    for (std::size_t at = told_; at < text_.size();) {
        const auto from = std::min(text_.find_first_not_of(" \t>*+-`~", at), text_.size());
        const auto to = std::min(text_.find_first_not_of("0123456789", from), text_.size());
        const bool ends = to + 1 >= text_.size() || text_[to + 1] == ' ' || text_[to + 1] == '\t' ||
                          text_[to + 1] == '\n';
        if (to > from && to - from <= 9 && to < text_.size() && text_[to] == list.sign && ends) {
            told_ = to + 1;
            return std::string(text_.substr(from, to + 1 - from));
        }
        const auto line_end = text_.find('\n', from);
        if (line_end == std::string_view::npos) break;
        at = line_end + 1;
    }
    return std::string("1") + list.sign;
}

std::optional<std::size_t> Builder::place_of(std::string_view piece) const {
    const std::less_equal<> no_later;
    const char* const begin = copy_.data();
    const bool within = no_later(begin, piece.data()) &&
                        no_later(piece.data() + piece.size(), begin + copy_.size());
    if (!within) return std::nullopt;
    return static_cast<std::size_t>(piece.data() - begin);
}

// What stands in the text where the copy has `piece`; what md4c made itself has no place in it.
std::string Builder::original(std::string_view piece) {
    if (const auto place = place_of(piece)) {
        told_ = std::max(told_, *place + piece.size());
        return std::string(text_.substr(*place, piece.size()));
    }
    std::string made(piece);
    std::ranges::transform(made, made.begin(), shown);
    return made;
}

std::string Builder::original(const MD_ATTRIBUTE& attribute) {
    if (attribute.text == nullptr) return {};
    return original(std::string_view(attribute.text, attribute.size));
}

std::vector<std::string> lines_of(const std::vector<TextBlock>& blocks) {
    std::vector<std::string> lines;
    for (const TextBlock& block : blocks) {
        if (block.kind == TextBlock::Kind::rule) continue;
        if (block.kind != TextBlock::Kind::quote && block.kind != TextBlock::Kind::item) {
            const std::string words = words_of_runs(block.runs);
            for (const auto line : split(words, '\n'))
                lines.emplace_back(line);
            continue;
        }
        auto within = lines_of(block.inside);
        if (within.empty()) within.emplace_back();
        std::string before = block.mark.empty() ? "  " : block.mark + " ";
        for (const auto& line : within)
            lines.push_back(std::exchange(before, "  ") + line);
    }
    return lines;
}

} // namespace

std::vector<TextBlock> blocks_of(std::string_view marked) {
    const std::string text = tidied(marked);
    return Builder(text).build();
}

std::string words_of_runs(const std::vector<TextRun>& runs) {
    std::string words;
    for (const TextRun& run : runs)
        words += run.text;
    return words;
}

std::string words_of_marked(std::string_view marked) {
    return join(lines_of(blocks_of(marked)), "\n");
}

std::string first_line_of_marked(std::string_view marked) {
    const auto lines = lines_of(blocks_of(marked));
    return lines.empty() ? std::string() : std::string(trim(lines.front()));
}

} // namespace fettle
