// What a desktop does with a window, for tests under Xvfb that xdotool has no word for: a file
// manager's hand that drops files on it (the XDND protocol, version 5, of freedesktop.org), and the
// window manager's that asks it to close (ICCCM 4.2.8.1).
// usage: desktop_hand drop WINDOW FILE... | close WINDOW      (WINDOW as xdotool search prints it)
#include <X11/Xatom.h>
#include <X11/Xlib.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

constexpr int kSeconds = 60; // in which the window has to answer

class Hand {
  public:
    Hand(Display* display, Window window)
        : display_(display),
          window_(window),
          own_(XCreateSimpleWindow(display, DefaultRootWindow(display), 0, 0, 1, 1, 0, 0, 0)) {}

    void close() {
        tell(window_, "WM_PROTOCOLS", {static_cast<long>(atom("WM_DELETE_WINDOW")), CurrentTime});
    }

    // True once the window has taken them.
    bool drop(const std::string& uris) {
        uris_ = uris;
        XSetSelectionOwner(display_, atom("XdndSelection"), own_, CurrentTime);
        const long self = static_cast<long>(own_), kind = static_cast<long>(atom("text/uri-list"));
        tell(window_, "XdndEnter", {self, 5 << 24, kind});
        tell(window_, "XdndPosition",
             {self, 0, (400 << 16) | 400, CurrentTime, static_cast<long>(atom("XdndActionCopy"))});
        if (!answered("XdndStatus")) return false;
        tell(window_, "XdndDrop", {self, 0, CurrentTime});
        return answered("XdndFinished");
    }

  private:
    struct Words {
        long word[5] = {};
    };

    Atom atom(const char* name) { return XInternAtom(display_, name, False); }

    void tell(Window to, const char* what, const Words& words) {
        XEvent event = {};
        event.xclient.type = ClientMessage;
        event.xclient.window = to;
        event.xclient.message_type = atom(what);
        event.xclient.format = 32;
        std::memcpy(event.xclient.data.l, words.word, sizeof words.word);
        XSendEvent(display_, to, False, NoEventMask, &event);
        XFlush(display_);
    }

    void hand_over(const XSelectionRequestEvent& asked) {
        const auto* bytes = reinterpret_cast<const unsigned char*>(uris_.data());
        XChangeProperty(display_, asked.requestor, asked.property, asked.target, 8, PropModeReplace,
                        bytes, static_cast<int>(uris_.size()));
        XEvent event = {};
        event.xselection.type = SelectionNotify;
        event.xselection.requestor = asked.requestor;
        event.xselection.selection = asked.selection;
        event.xselection.target = asked.target;
        event.xselection.property = asked.property;
        event.xselection.time = asked.time;
        XSendEvent(display_, asked.requestor, False, NoEventMask, &event);
        XFlush(display_);
    }

    // Answers what the window asks meanwhile; the alarm ends a wait that is too long.
    bool answered(const char* what) {
        for (;;) {
            XEvent event;
            XNextEvent(display_, &event);
            if (event.type == SelectionRequest) hand_over(event.xselectionrequest);
            if (event.type == ClientMessage && event.xclient.message_type == atom(what))
                return event.xclient.data.l[1] != 0; // it takes, it took (GLFW: how much)
        }
    }

    Display* display_;
    Window window_, own_;
    std::string uris_;
};

// Of names without what has to be escaped.
std::string uri_list(char** files, int count) {
    std::string uris;
    for (int i = 0; i < count; ++i)
        uris += "file://" + std::string(files[i]) + "\r\n";
    return uris;
}

} // namespace

int main(int count, char** arguments) {
    const std::string act = count > 2 ? arguments[1] : "";
    Display* const display = XOpenDisplay(nullptr);
    if (!display || (act != "drop" && act != "close")) {
        std::fputs("usage: desktop_hand drop WINDOW FILE... | close WINDOW\n", stderr);
        return 2;
    }
    alarm(kSeconds);
    Hand hand(display, std::strtoul(arguments[2], nullptr, 10));
    bool done = true;
    if (act == "drop")
        done = hand.drop(uri_list(arguments + 3, count - 3));
    else
        hand.close();
    XCloseDisplay(display);
    return done ? 0 : 1;
}
