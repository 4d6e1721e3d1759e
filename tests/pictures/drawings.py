"""Small drawings, each of which shows one thing that SVG can say."""

from __future__ import annotations

DRAWINGS = {
    "outline under fill": """
        <rect x="10" y="10" width="50" height="30" fill="teal" stroke="red" stroke-width="9"
            paint-order="stroke"/>
        <circle cx="80" cy="30" r="12" style="fill:gold;stroke:navy;stroke-width:9;
            paint-order:stroke fill markers"/>
    """,
    "see-through outline": """
        <rect x="9" y="9" width="50" height="40" opacity=".5" fill="teal" stroke="black"
            stroke-width="8"/>
    """,
    "circles of clip": """
        <clipPath id="m">
        <circle cx="50" cy="30" r="20"/>
        <rect width="20" height="20"/>
        </clipPath>
        <g clip-path="url(#m)">
        <rect width="100" height="60" fill="green"/>
        </g>
    """,
    "clip in boxes": """
        <clipPath id="c" clipPathUnits="objectBoundingBox">
        <circle cx=".5" cy=".5" r=".5"/>
        </clipPath>
        <rect x="20" y="10" width="60" height="40" fill="green" clip-path="url(#c)"/>
    """,
    "pattern by reference": """
        <pattern id="p" width="10" height="10" patternUnits="userSpaceOnUse">
        <circle cx="5" cy="5" r="3" fill="brown"/>
        </pattern>
        <pattern id="q" xlink:href="#p" patternTransform="rotate(30)"/>
        <rect width="50" height="60" fill="url(#p)"/>
        <rect x="50" width="50" height="60" fill="url(#q)"/>
    """,
    "gradient by reference, twice": """
        <linearGradient id="a">
        <stop offset="0" stop-color="navy"/>
        <stop offset="1" stop-color="gold"/>
        </linearGradient>
        <linearGradient id="b" xlink:href="#a"/>
        <rect width="40" height="60" fill="url(#b)"/>
        <rect x="50" width="40" height="60" fill="url(#b)"/>
    """,
    "radial gradient": """
        <radialGradient id="g" cx=".4" cy=".4">
        <stop offset="0%" stop-color="yellow"/>
        <stop offset="100%" stop-color="red" stop-opacity="50%"/>
        </radialGradient>
        <circle cx="50" cy="30" r="28" fill="url(#g)"/>
    """,
    "opacity of a group": """
        <g opacity="50%">
        <rect width="60" height="60" fill="red"/>
        <rect x="30" width="60" height="60" fill="blue"/>
        </g>
    """,
    "opacity of a copy": """
        <defs>
        <circle id="c" r="20"/>
        </defs>
        <use xlink:href="#c" x="30" y="30" opacity=".3"/>
        <use href="#c" x="70" y="30" style="opacity:60%"/>
    """,
    "symbol": """
        <symbol id="s" viewBox="0 0 10 10">
        <circle cx="5" cy="5" r="5"/>
        </symbol>
        <use xlink:href="#s" width="20" height="20" fill="red"/>
        <use href="#s" x="30" y="10" width="40" height="40" fill="blue"/>
    """,
    "style sheet": """
        <style>.a{fill:#0a0;opacity:50%} g > rect{stroke:black;stroke-width:2}</style>
        <rect class="a" x="5" y="5" width="40" height="50"/>
        <g>
        <rect x="55" y="9" width="30" height="9"/>
        </g>
    """,
    "colours": """
        <circle cx="20" cy="30" r="18" fill="hsl(120,50%,40%)"/>
        <circle cx="50" cy="30" r="18" fill="rgb(200 100 50)"/>
        <circle cx="80" cy="30" r="18" fill="#00f8"/>
    """,
    "markers": """
        <marker id="p" viewBox="0 0 10 10" refX="5" refY="5" markerWidth="6" markerHeight="6"
            orient="auto">
        <path d="M0 0L10 5L0 10z"/>
        </marker>
        <path d="M10 10 L50 50 L90 10" fill="none" stroke="green" stroke-width="2"
            marker-end="url(#p)" marker-mid="url(#p)"/>
    """,
    "nested views": """
        <svg x="50%" y="10%" width="40%" height="80%" viewBox="0 0 10 10"
            preserveAspectRatio="none">
        <rect width="10" height="10" fill="teal"/>
        </svg>
    """,
    "groups and links": """
        <g transform="translate(10 5) rotate(10)">
        <g transform="scale(2)">
        <a href="x">
        <path d="M5 5h20v15h-20z M10 8h5v5h-5z" fill-rule="evenodd"/>
        </a>
        </g>
        </g>
    """,
    "curves": """
        <path d="M5 30C20 0 40 0 50 30S80 60 95 30" fill="none" stroke="teal" stroke-width="6"
            stroke-linecap="round"/>
        <path d="M20 50a15 8 30 1 0 20-20q5 5 9 1t9-2z" fill="olive"/>
    """,
    "dashes": """
        <path d="M5 30H95" stroke="black" stroke-width="8" stroke-dasharray="10 5"/>
    """,
    "a white mask": """
        <mask id="m">
        <circle cx="50" cy="30" r="20" fill="white"/>
        </mask>
        <rect width="100" height="60" fill="green" mask="url(#m)"/>
    """,
    "a switch": """
        <switch>
        <foreignObject requiredExtensions="x" width="1" height="1"/>
        <g>
        <rect width="50" height="50" fill="teal"/>
        </g>
        </switch>
    """,
}
