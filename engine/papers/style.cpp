#include "papers/style.hpp"

#include <string_view>

#include "papers/markup.hpp"

namespace awlmark::papers {
namespace {

// The drawing's own classes start with d (lines and words) and s (signs).
constexpr std::string_view kDrawing = R"(
svg.drawing{display:block;overflow:visible}
table.blank td{height:2.2rem}
svg.swatch{vertical-align:-3px;margin-right:.45em;flex:none}
.dl{fill:none;stroke:#1c2226;stroke-width:.7}
.dink{fill:#1c2226;stroke:#1c2226;stroke-width:.5}
.dpaper{fill:#fff;stroke:#1c2226;stroke-width:.6}
.dw{fill:#1c2226;font-family:Arial,"Liberation Sans","DejaVu Sans",sans-serif;text-anchor:middle;stroke:#fff;stroke-width:2.6;stroke-linejoin:round;paint-order:stroke}
.dstart{text-anchor:start}.dacc{fill:#8c3214}.db{font-weight:700}.di{font-style:italic}
.dlead{stroke-width:.45}
.ddim{stroke-width:.5}.dext{stroke-width:.3}.dtick{stroke-width:1.1}
.dcell{stroke:none;shape-rendering:crispEdges}
.doutline{fill:none;stroke:#1c2226;stroke-width:1.1}
.dwall{fill:#c9cccb;stroke:#1c2226;stroke-width:.6}.dbearing{fill:#5b6164}
.dopening{fill:#fff;stroke:#fff;stroke-width:.8}
.dfixture{fill:none;stroke:#1c2226;stroke-width:.8;stroke-dasharray:5 2.5}
.dshower{fill:none;stroke:#1c2226;stroke-width:.9;stroke-dasharray:1.5 2.5}
.dsource{fill:#fff;stroke:#1c2226;stroke-width:1.3}
.dsound{fill:none;stroke:#1c2226;stroke-width:1.9;stroke-linejoin:round}.dlikely{stroke-width:1.3;stroke-dasharray:7 3.5}
.dnext{fill:#fff;stroke:#8c3214;stroke-width:1.8}.dnextw{fill:#8c3214;stroke:none}
.sopen{fill:#fff;stroke:#1c2226;stroke-width:1}.sfull{fill:#1c2226;stroke:#1c2226;stroke-width:1}
.sline{fill:none;stroke:#1c2226;stroke-width:1}.scut{fill:none;stroke:#fff;stroke-width:1.1}.sbox{stroke:#1c2226;stroke-width:.6}
.dmember{fill:#fff;stroke:#1c2226;stroke-width:.8}.dcentre{fill:none;stroke:#1c2226;stroke-width:.35;stroke-dasharray:9 2 2 2}
.ddecay{stroke:#8c3214;stroke-width:1}.ddecay.dmaybe{stroke-dasharray:3 2}
.dcut{fill:none;stroke:#8c3214;stroke-width:2.2;stroke-linejoin:miter;stroke-dasharray:11 3 3 3}
.dblock{fill:#fff;stroke:#1c2226;stroke-width:.9}.dnew{fill:#f3e3d6;stroke:#1c2226;stroke-width:1}
.drest{fill:#1c2226;stroke:none}.dshore{fill:#fff;stroke:#8c3214;stroke-width:1.4}
.dpiece{fill:none;stroke:#1c2226;stroke-width:.35}
.dedge{fill:none;stroke:#1c2226;stroke-width:2.4}.drip{stroke:#8c3214}.dair{stroke:#8c3214;stroke-dasharray:3 3}.dwalledge{stroke-width:1.4;stroke-dasharray:9 3}.dseam{stroke-width:1;stroke-dasharray:1.5 2}
.dlayer{stroke:#1c2226;stroke-width:.6}
)";

constexpr std::string_view kPage = R"(
:root{--ink:#1c2226;--soft:#525b60;--rule:#c8cdcf;--accent:#8c3214;--wash:#f6f3ef}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:#fff;color:var(--ink);font:16px/1.5 Arial,"Liberation Sans","DejaVu Sans",sans-serif;overflow-wrap:break-word}
main{max-width:7.9in;margin:0 auto;padding:1.25rem .9rem 3rem}
header.head{border-top:6px solid var(--accent);padding-top:.7rem;margin-bottom:1.1rem}
h1{font-size:1.75rem;line-height:1.15;margin:0}
.of{font-size:1.1rem;margin:.2rem 0 .9rem;color:var(--soft);overflow-wrap:anywhere}
h2{font-size:1.2rem;line-height:1.25;margin:1.9rem 0 .55rem;padding-top:.45rem;border-top:1.5px solid var(--ink)}
h3{font-size:1rem;margin:1.2rem 0 .35rem}
p{margin:.45rem 0}
ul,ol{margin:.4rem 0;padding-left:1.3rem}li{margin:.22rem 0}
a{color:inherit}
sup a{color:var(--accent);text-decoration:none;font-size:.72rem;padding:0 .1em}
dl.facts{display:grid;grid-template-columns:repeat(auto-fit,minmax(13.5rem,1fr));gap:.1rem 1.6rem;margin:.4rem 0}
dl.facts div{display:flex;gap:.6rem;border-bottom:1px solid var(--rule);padding:.22rem 0}
dl.facts dt{flex:0 0 7.2rem;color:var(--soft);font-size:.88rem}
dl.facts dd{margin:0;min-width:0;overflow-wrap:anywhere}
ul.short-list{list-style:none;padding:.6rem 1rem;margin:.6rem 0;background:var(--wash);border-left:4px solid var(--accent)}ul.short-list li{margin:.35rem 0}
.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(8.6rem,1fr));gap:.5rem;margin:.8rem 0}
.figures div{border:1px solid var(--rule);border-top:3px solid var(--ink);padding:.45rem .6rem}
.figures b{display:block;font-size:1.35rem;line-height:1.2}
.figures span{font-size:.84rem;color:var(--soft);line-height:1.3;display:block}
.wide{overflow-x:auto;margin:.5rem 0}
table{border-collapse:collapse;width:100%;font-size:.86rem;line-height:1.35}
th,td{text-align:left;vertical-align:top;padding:.3rem .6rem .3rem 0;border-bottom:1px solid var(--rule);overflow-wrap:break-word}
th{border-bottom:1.5px solid var(--ink);font-size:.8rem;color:var(--soft)}
tbody th{font-size:inherit;font-weight:400;color:inherit;border-bottom:1px solid var(--rule)}
td.num,th.num{text-align:right;white-space:nowrap}
td.bad,th.bad{color:var(--accent);font-weight:700}td.good,th.good{font-weight:700}
td.date,th.date{white-space:nowrap}
td.sign{white-space:nowrap}
figure{margin:.9rem 0}
figure .paper{overflow-x:auto;border:1px solid var(--rule);padding:.35rem;background:#fff}
figcaption{font-size:.86rem;margin-top:.35rem;line-height:1.4}
ul.legend{list-style:none;padding:0;margin:.5rem 0;display:grid;grid-template-columns:repeat(auto-fit,minmax(15rem,1fr));gap:.05rem 1.1rem;font-size:.82rem;line-height:1.35}
ul.legend li{display:flex;align-items:flex-start;margin:.1rem 0}
.pair{display:flex;flex-wrap:wrap;gap:.4rem 1.2rem}.pair figure{margin:.4rem 0;flex:0 1 auto;max-width:100%}
.gate{border:1px solid var(--rule);border-left:4px solid var(--ink);padding:.4rem .8rem;margin:.45rem 0}
.gate h3{margin:0;font-size:1em}.gate p{margin:.15rem 0}ul.columns{columns:2;column-gap:.3in}ul.columns li{break-inside:avoid}.gate .who{font-size:.86rem;color:var(--soft)}
.box{display:inline-block;width:.85em;height:.85em;border:1.3px solid var(--ink);margin-right:.5em;vertical-align:-.08em}
.caution{border:2px solid var(--ink);padding:.6rem .95rem;margin:1.4rem 0}
.caution.brief{padding:.3rem .8rem;margin:.8rem 0;border-width:1px}.two{display:grid;grid-template-columns:repeat(auto-fit,minmax(17rem,1fr));gap:0 .8rem;align-items:start}
.caution h2{border:0;margin:0 0 .3rem;padding:0;font-size:1rem}.caution ul{margin:.2rem 0;font-size:.9rem}
.reasons{font-size:.84rem;line-height:1.4;padding-left:2rem}.reasons li{margin:.5rem 0}
.reasons .steps{color:var(--soft);margin:.1rem 0;padding-left:1rem}
.tight{font-size:.9rem;line-height:1.35;margin:.15rem 0}
table.grid td,table.grid th{padding:.12rem .5rem .12rem 0}
.small{font-size:.84rem;color:var(--soft)}
.sign-off{display:grid;grid-template-columns:repeat(auto-fit,minmax(15rem,1fr));gap:1.9rem 1.8rem;margin-top:2.2rem}
.sign-off div{border-top:1px solid var(--ink);padding-top:.2rem;font-size:.84rem}
.slide{display:none}
@media screen and (max-width:46rem){.beside{display:block}.slide{display:block}dl.facts dt{flex-basis:6.4rem}h1{font-size:1.5rem}table.cards thead{display:none}table.cards tr{display:block;border-bottom:1.5px solid var(--ink);padding:.3rem 0}table.cards td,table.cards tbody th{display:flex;gap:.6rem;border:0;padding:.12rem 0;text-align:left;white-space:normal}table.cards td::before,table.cards tbody th::before{content:attr(data-h);flex:0 0 6.6rem;color:var(--soft);font-size:.8rem;font-weight:400}table.cards td:empty{display:none}}
)";

constexpr std::string_view kPrint = R"(
html,body{background:#fff}
body{font-size:9.5pt;line-height:1.3}
main{max-width:none;padding:0}
h1{font-size:17pt}h2{font-size:11.5pt;margin:9pt 0 3pt;padding-top:2pt}h3{font-size:9.5pt;margin:6pt 0 2pt}
p{margin:2pt 0}ul,ol{margin:2pt 0}li{margin:1pt 0}
table,figcaption,ul.legend,.small,.tight,.reasons,.caution ul,dl.facts dt,.gate .who,.sign-off div,.figures span{font-size:8.5pt}
th{font-size:8.5pt}sup a{font-size:7.5pt}
header.head{border-top-width:3pt;padding-top:2pt;margin-bottom:3pt;display:flex;flex-wrap:wrap;gap:0 10pt;align-items:baseline}.of{margin:0 0 2pt;font-size:10.5pt}.gate{padding:2pt 7pt;margin:3pt 0}.tight{line-height:1.25;margin:1pt 0}
figure{margin:4pt 0}figcaption{margin-top:1pt}.wide{margin:2pt 0}table{line-height:1.2}th,td{padding-top:1.2pt;padding-bottom:1.2pt}table.blank td{height:17pt}table.fill td{height:13pt}
dl.facts{margin:2pt 0}dl.facts div{padding:1pt 0}ul.short-list{padding:3pt 9pt;margin:3pt 0}ul.short-list li{margin:1.5pt 0}
.figures{margin:4pt 0;gap:4pt}.figures div{padding:2pt 5pt}.figures b{font-size:13pt}
.caution,.caution.brief{margin:5pt 0;padding:2pt 8pt}.caution h2{margin:0;font-size:9.5pt}.sign-off{margin-top:20pt;gap:14pt 20pt}
.halves{columns:2;column-gap:.25in}.halves h3{margin-top:0}
h2,h3{break-after:avoid}
figure,.keep,.gate p,.gate h3,.caution,.short-list,.sign-off,.figures,dl.facts div,tr,.reasons li{break-inside:avoid}
thead{display:table-header-group}
p,li{orphans:3;widows:3}
.new-page{break-before:page}
.wide,figure .paper{overflow:visible}
figure .paper{border:0;padding:0}
ul.legend{grid-template-columns:repeat(3,1fr);margin:2pt 0}ul.legend li{margin:0}.beside ul.legend{grid-template-columns:1fr}
dl.facts{grid-template-columns:repeat(2,1fr)}.two{display:block;columns:2;column-gap:.2in}.two .gate{padding:2pt 6pt;font-size:8.5pt;line-height:1.2}.two .gate p{margin:1pt 0}.gate h3{break-after:avoid}.caution.brief li{margin:0}
ul.short-list,.figures div,.gate{-webkit-print-color-adjust:exact;print-color-adjust:exact}
a{text-decoration:none}
.reasons{columns:2;column-gap:.35in}
)";

}  // namespace

std::string style_rules(const std::string& running_title, Language language) {
  std::string out = "@page{size:letter;margin:.5in .6in .5in;@top-left{content:" + css_string(running_title) +
                    ";font:9pt Arial,\"DejaVu Sans\",sans-serif;color:#525b60}@bottom-right{content:" + css_string(said(language, "Page") + " ") +
                    " counter(page) " + css_string(" " + said(language, "of") + " ") +
                    " counter(pages);font:9pt "
                    "Arial,\"DejaVu Sans\",sans-serif;color:#525b60}}\n";
  out += kPage;
  out += kDrawing;
  out += "@media print{";
  out += kPrint;
  out += "}\n";
  return out;
}

}  // namespace awlmark::papers
