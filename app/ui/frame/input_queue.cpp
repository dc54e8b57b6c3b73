#include "ui/frame/input_queue.h"

#include <imgui.h>

#include <algorithm>
#include <cfloat>

namespace fettle::ui {
namespace {

bool is_modifier(Key key) {
    return key >= Key::left_shift && key <= Key::right_super;
}

// Keys that act on text instead of writing it: their order against characters must be kept.
bool acts_on_text(Key key) {
    return static_cast<int>(key) >= static_cast<int>(Key::escape) && !is_modifier(key);
}

// One frame's worth of input. Each take() answers whether the event still fits into this frame.
class OneFrame {
  public:
    OneFrame(ImGuiIO& io, std::vector<std::string>& dropped) : io_(io), dropped_(dropped) {}

    bool take(const PointerMove& move) {
        if (pointer_acted_) return false;
        io_.MousePos = ImVec2(move.x, move.y);
        return true;
    }

    bool take(const PointerButton& button) {
        if (button.button < 0 || button.button >= ImGuiMouseButton_COUNT) return true;
        const unsigned bit = 1U << button.button;
        if ((buttons_changed_ & bit) != 0 || keyed_ || wrote_) return false;
        buttons_changed_ |= bit;
        pointer_acted_ = true;
        io_.MouseDown[button.button] = button.down;
        return true;
    }

    bool take(const Wheel& wheel) {
        io_.MouseWheel += wheel.along;
        io_.MouseWheelH += wheel.across;
        pointer_acted_ = true;
        return true;
    }

    bool take(const KeyStroke& stroke) {
        const int code = static_cast<int>(stroke.key);
        if (code <= 0 || code >= IM_ARRAYSIZE(io_.KeysDown)) return true;
        const bool changed =
            std::find(keys_changed_.begin(), keys_changed_.end(), code) != keys_changed_.end();
        const bool after_key = keyed_ && (acts_on_text(stroke.key) || is_modifier(stroke.key));
        if (changed || wrote_ || buttons_changed_ != 0 || after_key || text_acted_) return false;
        keys_changed_.push_back(code);
        io_.KeysDown[code] = stroke.down;
        if (!is_modifier(stroke.key)) keyed_ = true;
        if (stroke.down && acts_on_text(stroke.key)) text_acted_ = true;
        return true;
    }

    bool take(const Character& character) {
        if (buttons_changed_ != 0 || text_acted_) return false;
        wrote_ = true;
        io_.AddInputCharacter(character.code_point);
        return true;
    }

    bool take(const FilesDropped& files) {
        dropped_.insert(dropped_.end(), files.paths.begin(), files.paths.end());
        return true;
    }

    bool take(const Focus& focus) {
        if (focus.gained) return true;
        // Releases that happen elsewhere never reach us: let go of everything.
        std::fill(std::begin(io_.KeysDown), std::end(io_.KeysDown), false);
        std::fill(std::begin(io_.MouseDown), std::end(io_.MouseDown), false);
        io_.MousePos = ImVec2(-FLT_MAX, -FLT_MAX);
        pointer_acted_ = true;
        return true;
    }

  private:
    ImGuiIO& io_;
    std::vector<std::string>& dropped_;
    std::vector<int> keys_changed_;
    unsigned buttons_changed_ = 0;
    bool pointer_acted_ = false; // a later move would change what was meant
    bool keyed_ = false;
    bool wrote_ = false;
    bool text_acted_ = false;
};

// A key that may lead the caret elsewhere needs some frames to do so, and the letters typed right
// after it belong there.
constexpr int kCaretMoves = 4;

bool down(const ImGuiIO& io, Key left, Key right) {
    return io.KeysDown[static_cast<int>(left)] || io.KeysDown[static_cast<int>(right)];
}

} // namespace

bool InputQueue::feed(ImGuiIO& io) {
    OneFrame frame(io, dropped_);
    settling_ = std::max(0, settling_ - 1);
    bool leads = false;
    while (!events_.empty()) {
        if (settling_ > 0 && std::holds_alternative<Character>(events_.front())) break;
        const auto* stroke = std::get_if<KeyStroke>(&events_.front());
        const bool chord = down(io, Key::left_ctrl, Key::right_ctrl);
        const bool may_lead = stroke && stroke->down && !is_modifier(stroke->key) &&
                              (chord || (stroke->key >= Key::f1 && stroke->key <= Key::f12));
        const bool fits =
            std::visit([&frame](const auto& event) { return frame.take(event); }, events_.front());
        if (!fits) break;
        leads = leads || may_lead;
        events_.pop_front();
    }
    if (leads) settling_ = kCaretMoves;
    io.KeyCtrl = down(io, Key::left_ctrl, Key::right_ctrl);
    io.KeyShift = down(io, Key::left_shift, Key::right_shift);
    io.KeyAlt = down(io, Key::left_alt, Key::right_alt);
    io.KeySuper = down(io, Key::left_super, Key::right_super);
    return !events_.empty();
}

void map_keys(ImGuiIO& io) {
    struct Pair {
        ImGuiKey_ theirs;
        Key ours;
    };
    static constexpr Pair kPairs[] = {
        {ImGuiKey_Tab, Key::tab},
        {ImGuiKey_LeftArrow, Key::left},
        {ImGuiKey_RightArrow, Key::right},
        {ImGuiKey_UpArrow, Key::up},
        {ImGuiKey_DownArrow, Key::down},
        {ImGuiKey_PageUp, Key::page_up},
        {ImGuiKey_PageDown, Key::page_down},
        {ImGuiKey_Home, Key::home},
        {ImGuiKey_End, Key::end},
        {ImGuiKey_Insert, Key::insert},
        {ImGuiKey_Delete, Key::del},
        {ImGuiKey_Backspace, Key::backspace},
        {ImGuiKey_Space, Key::space},
        {ImGuiKey_Enter, Key::enter},
        {ImGuiKey_Escape, Key::escape},
        {ImGuiKey_KeyPadEnter, Key::keypad_enter},
        {ImGuiKey_A, Key::a},
        {ImGuiKey_C, Key::c},
        {ImGuiKey_V, Key::v},
        {ImGuiKey_X, Key::x},
        {ImGuiKey_Y, Key::y},
        {ImGuiKey_Z, Key::z},
    };
    for (const Pair& pair : kPairs)
        io.KeyMap[pair.theirs] = static_cast<int>(pair.ours);
}

} // namespace fettle::ui
