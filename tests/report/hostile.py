"""A session in which everything that can be typed is hostile."""

BAD = '<script>alert(1)</script>=cmd()|"&#x27;[b](javascript:x)\\u001b[31m\\u202e`*_~'
"""As it stands in a TOML text: HTML, a formula, a link, an escape code, a turned direction, Markdown."""

HOSTILE = f"""
format = 1
[ruleset]
id = "hovawart-fci-190"
[dog]
call_name = '''=cmd()|'/C calc'!A0 <b>{"x" * 5}</b>'''
registered_name = "{BAD.replace('"', chr(92) + '"')}"
sex = "male"
born = 2021-05-14
sire = "@SUM(1)"
dam = "+1+1"
chip = "-2+3"
[dog.attributes]
"<i>coat</i>" = "</style><script>1</script>"
[examination]
evaluator = "<img src=x onerror=alert(2)>"
place = "{BAD.replace('"', chr(92) + '"')}"
started = 2026-05-02T09:30:00+02:00
[[takes]]
point = "height"
value = 71.5
[[grades]]
point = "hindquarters.hocks"
fault = "hindquarters.cow-hocks"
degree = "slight"
detail = "<u>here</u>"
[[choices]]
point = "colour.white-marks"
choice = "toes"
[[skips]]
region = "movement"
reason = "=HYPERLINK(1)</table>"
[[notes]]
text = "</body><script>alert(3)</script>\\n# no heading\\n- no list\\n[x](y)"
region = "head"
by = "<b>scribe</b>"
[summary]
text = "<h1>big</h1>\\n\\n| a | b |\\n=1+1"
outcome = "<i>best</i>"
[[critiques]]
text = "<script>alert(4)</script> *bold* \\n\\n# heading"
[[decisions]]
fault = "hindquarters.cow-hocks"
decision = "uphold"
reason = "<b>why</b>"
"""
