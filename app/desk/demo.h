// The demo notebook: the invented rebuild of assets/demo, made by the same acts a user makes.
#pragma once

#include "calc/catalogue.h"
#include "notebook/notebook.h"

#include <functional>

namespace fettle::desk {

// Makes a notebook in `folder` from scenario.json and photos/ in `assets`. Refused where a notebook
// is already; a scenario that does not read gives a Failure naming the record at fault.
Result<Notebook>
make_demo(const std::filesystem::path& folder, const std::filesystem::path& assets,
          calc::Catalogue& sheets,
          const std::function<void(std::size_t, std::size_t, const std::string&)>& progress);

} // namespace fettle::desk
