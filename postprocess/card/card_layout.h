#pragma once
// The sheet of the bench card: its HTML frame and style, for any page of 184 by 265 mm,
// which A4 and Letter both hold within their margins. Black on white, so that any printer
// and copier does.

namespace throughbend
{
constexpr const char *card_frame = R"(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="generator" content="throughbend card">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy"
      content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<link rel="icon" href="data:,">
<title>{{title}}</title>
<style>
{{style}}</style>
</head>
<body>
<main>
<header>
<p class="kind">Bench card. An estimate, not an acceptance: the governing code and licensed practice decide.</p>
<h1>{{title}}</h1>
<p class="small">{{fixture}}</p>
</header>
{{warning}}<div class="limits">
{{limits}}</div>
<section class="metals">
{{metals}}</section>
<div class="work">
<div class="rules">
{{rules}}</div>
<figure>
{{sketch}}<figcaption>{{grease}}</figcaption>
</figure>
</div>
{{runs}}<section class="small">
{{left_out}}</section>
<footer class="small">{{made}}</footer>
</main>
</body>
</html>
)";

constexpr const char *card_style = R"(
* { box-sizing: border-box; }
@page { margin: 7mm 12mm; }
html { background: #fff; }
body { margin: 0; color: #000; background: #fff; font: 9.5pt/1.25 "Liberation Sans", Arial, sans-serif; }
main { width: 184mm; max-width: 100%; margin: 0 auto; }
h1, h2, h3, p, figure, ul { margin: 0; padding: 0; }
h1 { font-size: 15pt; line-height: 1.1; overflow-wrap: anywhere; }
h2 { font-size: 12pt; line-height: 1.1; }
.kind { font-size: 9.5pt; font-weight: 700; }
.small { font-size: 7pt; line-height: 1.2; overflow-wrap: anywhere; }
.limits { display: grid; grid-template-columns: repeat(2, minmax(0, 1fr)); gap: 1.5mm 2mm; margin: 1.5mm 0; }
.limit { border: 0.6mm solid #000; padding: 0.8mm 2.5mm 1mm; font-size: 8.5pt; line-height: 1.2; }
.value { font-size: 29pt; line-height: 1.02; font-weight: 700; }
.value b, .value span, .second b, .second span { white-space: nowrap; }
.value span { font-size: 17pt; }
.second { font-size: 19pt; line-height: 1.15; font-weight: 700; }
.metals { border: 0.3mm solid #000; padding: 0.8mm 2.5mm; margin: 0 0 1.5mm; font-size: 7.5pt; line-height: 1.15; }
.work { display: grid; grid-template-columns: 1fr 66mm; gap: 4mm; margin-bottom: 1.5mm; }
.rules p { font-size: 8.5pt; line-height: 1.15; margin: 0 0 1mm; }
.rules strong { font-size: 14.5pt; line-height: 1.1; display: block; }
figcaption { font-size: 8pt; line-height: 1.2; }
figcaption strong { font-size: 14.5pt; display: block; }
.sketch { display: block; width: 100%; height: 30mm; }
.sketch * { stroke: #000; stroke-width: 0.25mm; vector-effect: non-scaling-stroke; stroke-linejoin: round; }
.sketch .tool { fill: #e4e4e4; }
.sketch .coupon { fill: #fff; }
.sketch .grease { fill: none; stroke-width: 1.8mm; }
.second span { font-size: 15pt; }
.warning { border: 1.4mm solid #000; padding: 0.8mm 2.5mm; font-size: 10pt; line-height: 1.2; font-weight: 700; margin-top: 1.5mm; }
table { border-collapse: collapse; width: 100%; margin-bottom: 1.5mm; font-size: 7.5pt; line-height: 1.15; }
th, td { text-align: left; border-bottom: 0.2mm solid #000; padding: 0.3mm 2mm 0.3mm 0; overflow-wrap: anywhere; }
thead th { font-weight: 700; }
td { white-space: nowrap; }
tbody th { font-weight: 400; }
@media screen { body { padding: 8mm; } }
)";
} // namespace throughbend
