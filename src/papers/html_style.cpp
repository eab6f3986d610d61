// How a page looks: one column, thin rules, figures all equally wide, the colours of docs/drawing.md. Nothing
// hangs on colour: severities are words with a number of blocks, grades stand beside words.
#include "papers/html_style.h"

#include <fmt/format.h>

#include "drawing/grade.h"
#include "drawing/style.h"
#include "drawing/text_measure.h"

namespace kerfdraft::papers {
namespace {

/// Text of a CSS string.
std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (c == '<') {
      out += "\\3c ";  // a style element must not end here
    } else if (static_cast<unsigned char>(c) < 0x20) {
      out += ' ';
    } else {
      out += c;
    }
  }
  return out + "\"";
}

constexpr std::string_view kRules = R"(
*{box-sizing:border-box}
html{color:var(--ink);background:#fff;font:16px/1.5 var(--face);font-variant-numeric:tabular-nums lining-nums;-webkit-text-size-adjust:100%}
body{margin:0 auto;padding:2.6rem 1.6rem 4rem;max-width:58rem}
header.top{border-bottom:1.5px solid var(--ink);padding-bottom:.9rem;margin-bottom:1.6rem}
header.top .kind{margin:0 0 .35rem;color:var(--faint);font-size:.95rem}
h1{font-size:1.85rem;line-height:1.2;font-weight:700;margin:0 0 .5rem}
.first{margin:0;padding:0;list-style:none;display:flex;flex-wrap:wrap;font-weight:700;font-size:.95rem}
.first li+li::before{content:"\2002\00b7\2002";font-weight:400;color:var(--faint)}
.note{margin:.55rem 0 0;color:var(--faint);font-size:.875rem;max-width:46rem}
h2{font-size:1.3rem;line-height:1.25;margin:2.6rem 0 .8rem;padding-top:.7rem;border-top:.75px solid var(--pale);break-after:avoid}
h3{font-size:1.02rem;margin:1.6rem 0 .5rem;break-after:avoid}
p,ul,ol{max-width:44rem;margin:.55rem 0}
p.lead{font-size:1.22rem;line-height:1.42;margin:.2rem 0 1.1rem}
p.small,.small{font-size:.84rem;color:var(--faint)}
ol.steps{counter-reset:n;list-style:none;padding:0;margin:.8rem 0 1rem}
ol.steps>li{counter-increment:n;position:relative;padding:0 0 0 2.5rem;margin:0 0 .95rem;break-inside:avoid}
ol.steps>li::before{content:counter(n);position:absolute;left:0;top:.02rem;width:1.7rem;height:1.7rem;border:1.5px solid var(--ink);border-radius:50%;text-align:center;line-height:1.56rem;font-weight:700}
ul.plain{padding-left:1.15rem}
ul.plain>li{margin:.28rem 0}
.below{display:block;margin-top:.1rem}
nav.contents{margin:0 0 1.6rem;font-size:.9rem}
nav.contents h2{font-size:.9rem;margin:0 0 .3rem;padding:0;border:0;color:var(--faint);font-weight:400}
nav.contents ol{columns:2;column-gap:2.4rem;margin:0;padding:0;list-style:none;max-width:none}
nav.contents a{color:var(--ink);text-decoration:none;border-bottom:.75px solid var(--pale)}
nav.contents a:hover,nav.contents a:focus{border-bottom-color:var(--ink)}
nav.contents li{padding:.18rem 0;break-inside:avoid}
figure{margin:1.3rem 0;break-inside:avoid}
figure svg{display:block;width:100%;height:auto}
figcaption{margin-top:.45rem;font-size:.875rem;color:var(--faint);max-width:44rem}
.scroll{overflow-x:auto;margin:.9rem 0 1.2rem}
table{border-collapse:collapse;width:100%;font-size:.9rem;line-height:1.35}
caption{text-align:left;font-weight:700;padding:0 0 .4rem;caption-side:top}
th,td{text-align:left;vertical-align:top;padding:.34rem .8rem .34rem 0}
th:last-child,td:last-child{padding-right:0}
thead th{font-weight:400;color:var(--faint);border-bottom:1px solid var(--ink);vertical-align:bottom;font-size:.84rem}
tbody th{font-weight:400}
tbody tr+tr>*{border-top:.5px solid var(--rule)}
tbody tr.start>*{border-top:1px solid var(--faint)}
tbody tr:last-child>*{border-bottom:1px solid var(--pale)}
.r{text-align:right;white-space:nowrap}
thead th.r{white-space:normal}
table.dense{font-size:.8rem}
table.dense th,table.dense td{padding:.24rem .6rem .24rem 0}
table.pen th,table.pen td{border:.75px solid var(--pale);padding:.42rem .5rem;height:2.1rem}
table.pen thead th{border-bottom:1px solid var(--ink)}
tfoot td{font-size:.84rem;color:var(--faint);padding-top:.45rem}
i.g{display:inline-block;width:.95em;height:.95em;margin-right:.5em;vertical-align:-.1em;border:.75px solid var(--ink)}
section.box{border-left:6px solid var(--ink);padding:.05rem 0 .05rem 1rem;margin:1.15rem 0;break-inside:avoid}
section.box h3{margin:.1rem 0 .25rem}
section.box p{margin:.25rem 0}
section.box ul{margin:.3rem 0;padding-left:1.1rem}
section.box .limit,section.box .also{font-size:.86rem;color:var(--faint)}
.sev{display:inline-flex;align-items:center;gap:.5em;font-size:.84rem;font-weight:400;margin:0}
.sev b{display:inline-flex;gap:2px}
.sev b i{width:.62em;height:.62em;border:1px solid var(--ink);background:#fff}
.s0{border-left-color:var(--g0)!important}.s0 .sev i{background:var(--g0);border-color:var(--g0)}
.s1{border-left-color:var(--g1)!important}.s1 .sev i:nth-child(-n+3){background:var(--g1);border-color:var(--g1)}
.s2{border-left-color:var(--g2)!important}.s2 .sev i:nth-child(-n+2){background:var(--g2);border-color:var(--g2)}
.s3{border-left-color:var(--pale)!important}.s3 .sev i:nth-child(-n+1){background:var(--faint);border-color:var(--faint)}
dl.figures{display:flex;flex-wrap:wrap;gap:.9rem 2.6rem;margin:1.1rem 0 1.4rem;break-inside:avoid}
dl.figures div{display:flex;flex-direction:column-reverse;justify-content:flex-end;max-width:15rem}
dl.figures dd{margin:0;font-size:1.5rem;font-weight:700;line-height:1.2}
dl.figures dt{font-size:.86rem;color:var(--faint)}
aside.caution{border:1.5px solid var(--g0);padding:.7rem 1rem .75rem;margin:1.2rem 0;break-inside:avoid}
aside.caution h3{margin:0 0 .25rem;color:var(--g0)}
aside.caution p{margin:.25rem 0}
dl.sources{display:grid;grid-template-columns:max-content 1fr;gap:.25rem 1.2rem;font-size:.84rem;margin:.6rem 0}
dl.sources dt{font-weight:700}
dl.sources dd{margin:0}
dl.pen{display:grid;grid-template-columns:repeat(2,1fr);gap:1.9rem 2.4rem;margin:2.2rem 0 1rem;break-inside:avoid}
dl.pen div{border-top:.75px solid var(--ink);padding-top:.2rem}
dl.pen dt{font-size:.84rem;color:var(--faint)}
dl.pen dd{display:none}
.break{break-before:page;height:0}
footer.end{margin-top:2.6rem;padding-top:.6rem;border-top:.75px solid var(--pale);font-size:.84rem;color:var(--faint)}
@media (max-width:34rem){nav.contents ol{columns:1}dl.sources,dl.pen{grid-template-columns:1fr}dl.sources dd{margin-bottom:.4rem}}
@media print{
html{font-size:9.6pt;line-height:1.42;-webkit-print-color-adjust:exact;print-color-adjust:exact}
body{max-width:none;padding:0}
p,ul,ol,figcaption,.note{max-width:none}
h2{margin-top:1.7rem}
nav.contents,footer.end{display:none}
.scroll{overflow:visible}
thead{display:table-header-group}
tfoot{display:table-row-group}
tr,li{break-inside:avoid}
p{orphans:3;widows:3}
figure svg{max-height:var(--tallest)}
dl.figures dd{font-size:1.35rem}
.brief{line-height:1.35}
.brief .note,.brief figcaption,.brief .small,.brief table,.brief thead th,.brief tfoot td{font-size:.94rem}
.brief header.top{padding-bottom:.3rem;margin-bottom:.55rem}
.brief header.top .kind{margin:0}
.brief h1{font-size:1.6rem;margin:0 0 .15rem}
.brief h2{font-size:1.2rem;margin:.7rem 0 .25rem;padding-top:.3rem}
.brief .note{margin-top:.3rem;line-height:1.3}
.brief p,.brief ul,.brief ol{margin:.25rem 0}
.brief p.lead{font-size:1.15rem;line-height:1.34;margin:0 0 .4rem}
.brief figure{margin:.3rem 0}
.brief figcaption{margin-top:.2rem;line-height:1.3}
.brief ol.steps{margin:.4rem 0}
.brief ol.steps>li{margin:0 0 .35rem;min-height:1.8rem}
.brief ul.plain>li{margin:.12rem 0}
.brief .below{margin-top:0}
.brief .scroll{margin:.3rem 0 .5rem}
.brief table{line-height:1.22}
.brief caption{padding-bottom:.15rem}
.brief th,.brief td{padding:.13rem .6rem .13rem 0}
.brief tfoot td{padding-top:.2rem}
.brief aside.caution{padding:.2rem .7rem .25rem;margin:.4rem 0}
.brief aside.caution h3,.brief aside.caution p{margin:0;line-height:1.34}
.brief aside.caution h3,.brief aside.caution p{display:inline}
.brief aside.caution h3{font-size:1rem}
.brief aside.caution h3::after{content:". "}
.brief td:has(i.g){white-space:nowrap}
}
)";

}  // namespace

std::string pageStyle(base::UnitSystem units, const std::string& foot, bool brief) {
  const bool metric = units == base::UnitSystem::Metric;
  std::string out = fmt::format(
      ":root{{--ink:{};--faint:#59636b;--pale:{};--rule:#dde1e4;--face:{};--tallest:{};",
      toText(drawing::kInk), toText(drawing::kPale), drawing::kFontFamilies, metric ? "215mm" : "8in");
  for (std::size_t g = 0; g < drawing::kScale.size(); ++g) {
    out += fmt::format("--g{}:{};", g, toText(drawing::fillOf(drawing::kScale[g])));
  }
  out += "}";
  out += kRules;
  const std::string_view margins = brief    ? (metric ? "13mm 18mm 16mm 18mm" : "0.5in 0.7in 0.6in 0.7in")
                                   : metric ? "18mm 18mm 20mm 22mm"
                                            : "0.7in 0.7in 0.8in 0.85in";
  out += fmt::format(
      "@page{{size:{};margin:{};@bottom-left{{content:{};font:9pt {};color:#59636b}}"
      "@bottom-right{{content:counter(page) \" / \" counter(pages);font:9pt {};color:#59636b}}}}\n",
      metric ? "A4" : "Letter", margins, quoted(foot), drawing::kFontFamilies, drawing::kFontFamilies);
  return out;
}

}  // namespace kerfdraft::papers
