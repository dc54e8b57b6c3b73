// How the HTML of a book looks: the colours of the window in both lights, white paper in print.
#pragma once

namespace fettle::desk {

inline constexpr const char* kBookStyle = R"(:root {
  color-scheme: light dark;
  --ground: #F4EFE6; --sheet: #FBF8F2; --ink: #26221C; --pencil: #665F53; --rule: #CFC6B4;
  --lead: #A8361A; --brass: #7D5A10; --verdigris: #2A6354; --steel: #355573;
}
@media (prefers-color-scheme: dark) {
  :root {
    --ground: #1C1A17; --sheet: #262320; --ink: #EAE4D8; --pencil: #A9A091; --rule: #454038;
    --lead: #EE7F5F; --brass: #D9AE4B; --verdigris: #7CC3AD; --steel: #93B7D9;
  }
}
* { box-sizing: border-box; }
body { margin: 0 auto; padding: 24px 16px 64px; max-width: 1024px; background: var(--ground);
  color: var(--ink); font: 16px/1.5 Cabin, Carlito, sans-serif; overflow-wrap: break-word; }
header, nav, main > section { margin-bottom: 64px; }
header { border-top: 6px solid var(--lead); padding-top: 16px; }
h1 { font-size: 44px; line-height: 1.15; margin: 8px 0; }
h2 { font-size: 28px; line-height: 1.2; border-top: 4px solid var(--lead); padding-top: 8px;
  margin: 0 0 16px; }
h3 { font-size: 19px; margin: 32px 0 8px; }
h4 { font-size: 16px; margin: 16px 0 4px; }
p { margin: 0 0 8px; max-width: 72ch; }
a { color: var(--steel); }
nav ol { padding-left: 24px; }
.subject, .fine, figcaption, .beside p, dt, th, small, .missing { color: var(--pencil); }
.fine, figcaption, .beside p, .working, small, th { font-size: 13px; }
.working { font-variant-numeric: tabular-nums; margin: 0 0 4px 24px; }
figure { margin: 0; }
img { display: block; max-width: 100%; height: auto; }
.cover { margin: 16px 0; }
.cover img { max-height: 70vh; width: auto; }
.figures { display: grid; grid-template-columns: repeat(auto-fit, minmax(140px, 1fr)); gap: 16px;
  border-top: 1px solid var(--rule); padding: 16px 0 0; list-style: none; color: var(--pencil); }
.figures strong { display: block; font-size: 28px; line-height: 1.2; color: var(--ink); }
article { display: grid; grid-template-columns: 200px minmax(0, 1fr); gap: 8px 24px;
  border-top: 1px solid var(--rule); padding: 16px 0; }
.beside h3 { font-size: 16px; margin: 0 0 4px; }
.beside p { margin: 0 0 2px; }
.shots { display: grid; grid-template-columns: repeat(auto-fill, minmax(220px, 1fr)); gap: 16px;
  margin: 16px 0; }
.pair { grid-template-columns: repeat(2, minmax(0, 1fr)); }
.missing { border: 1px solid var(--rule); padding: 24px 16px; }
.told h5, .told h6 { font-size: 16px; margin: 16px 0 4px; }
.told ul, .told ol { margin: 0 0 8px; padding-left: 24px; }
.told .plus { list-style-type: "+ "; }
@counter-style bracket { system: extends decimal; suffix: ") "; }
.told .bracket { list-style-type: bracket; }
.told li::marker { color: var(--pencil); }
.told blockquote { margin: 8px 0; padding-left: 16px; border-left: 4px solid var(--rule); }
.told pre { white-space: pre-wrap; background: var(--sheet); padding: 8px 16px; margin: 8px 0; }
.told code { font: 13px/1.5 "DejaVu Sans Mono", monospace; }
.told hr { border: 0; border-top: 1px solid var(--rule); margin: 16px 0; }
.facts { display: grid; grid-template-columns: 200px minmax(0, 1fr); gap: 0 24px; margin: 8px 0; }
.facts dd { margin: 0; }
.sheet { background: var(--sheet); border-left: 3px solid var(--rule); padding: 8px 16px;
  margin: 16px 0; }
.sheet h4 { margin-top: 0; }
.note { border-left: 4px solid var(--rule); padding-left: 12px; }
.stop { border-color: var(--lead); }
.stop strong { color: var(--lead); }
.caution { border-color: var(--brass); }
.caution strong { color: var(--brass); }
.reached { border-color: var(--verdigris); }
.reached strong { color: var(--verdigris); }
.wide { overflow-x: auto; margin: 8px 0 16px; }
table { border-collapse: collapse; font-variant-numeric: tabular-nums; }
caption { text-align: left; font-weight: bold; padding: 4px 0; }
th { text-align: left; font-weight: normal; vertical-align: bottom; }
th, td { border-bottom: 1px solid var(--rule); padding: 4px 24px 4px 0; vertical-align: top; }
.chart { background: #FFFFFF; margin: 8px 0 16px; max-width: 680px; }
.chart svg { display: block; width: 100%; height: auto; }
@media (max-width: 700px) {
  article, .facts { grid-template-columns: minmax(0, 1fr); }
  .facts dd { margin-bottom: 8px; }
  h1 { font-size: 32px; }
}
@media print {
  :root { --ground: #FFFFFF; --sheet: #FFFFFF; --ink: #26221C; --pencil: #665F53;
    --rule: #CFC6B4; --lead: #A8361A; --brass: #7D5A10; --verdigris: #2A6354; --steel: #355573; }
  body { max-width: none; padding: 0; font-size: 10.5pt; }
  main > section { break-before: page; }
  figure, tr, .note { break-inside: avoid; }
  h2, h3, h4, .beside { break-after: avoid; }
}
)";

} // namespace fettle::desk
