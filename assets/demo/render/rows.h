// Shares rows of an image among the machine's cores. Each row is computed alone, so the outcome
// does not depend on how many there are.
#pragma once

#include <algorithm>
#include <thread>
#include <vector>

namespace fettle::demo {

template <class Row>
void for_rows(int rows, Row&& row) {
    const int workers = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, 8);
    std::vector<std::thread> threads;
    for (int worker = 0; worker < workers; ++worker)
        threads.emplace_back([=, &row] {
            for (int y = worker; y < rows; y += workers)
                row(y);
        });
    for (std::thread& thread : threads)
        thread.join();
}

} // namespace fettle::demo
