"""What a lesson's buttons in JupyterLab say, and what is said when something of a lesson is kept."""

WORDS = {
    "run": "Run the page",
    "run_tip": "Run everything on this page",
    "code": "Code",
    "code_tip": "Show the code of this page, or fold it away",
    "fresh": "Fresh copy",
    "fresh_tip": "This page again as the course has it; what you changed is kept beside it",
    "fresh_title": "A fresh copy of this page?",
    "fresh_body": "The page becomes what it is in the course. What you changed on it is kept beside it, under another name. Your answers stay.",
    "cancel": "Cancel",
    "failed": "The course could not be asked for a fresh copy: is it still running? Nothing was changed.",
    "kept": "This cell belongs to the lesson, and stays as it is. Cells that you add can be deleted.",
    "gone": "The Python behind this page has stopped, so its saved pictures are shown. Your answers are kept. Run the page to go on.",
    "starting": "Python is starting for this page. What you run waits for it.",
}
"""By id; the script in the browser (extensions/anglelib-lab) looks them up."""
