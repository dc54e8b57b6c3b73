#include "store/folder_lock.h"
#include "temp_folder.h"

#include <doctest/doctest.h>
#include <unistd.h>

using fettle::FailureKind;
using fettle::store::FolderLock;

TEST_CASE("one writer a folder: the second is told who holds it, and gets in afterwards") {
    TempFolder folder;
    {
        auto first = FolderLock::take(folder.path());
        REQUIRE(first.ok());
        auto second = FolderLock::take(folder.path());
        REQUIRE_FALSE(second.ok());
        CHECK(second.failure().kind == FailureKind::busy);
        CHECK(second.failure().sentence.find(std::to_string(getpid())) != std::string::npos);
    }
    CHECK(FolderLock::take(folder.path()).ok());
}

TEST_CASE("a folder that is not there cannot be locked") {
    auto lock = FolderLock::take("/nonexistent/notebook");
    REQUIRE_FALSE(lock.ok());
    CHECK(lock.failure().kind == FailureKind::io);
}
