"""The class pack made from controls: how many learners, how long, which machines, which paper; then one press.

>>> box = ClassPackBox()
>>> box.controls["learners"].value = 6
>>> box.wanted().learners, box.wanted().paper
(6, 'letter')
>>> box.hours.value = "a day"
>>> box.make.click()
>>> box.trouble
'The hours "a day" are not a number: write 8 or 7.5.'
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import ipywidgets as widgets

from anglelib.errors import BenchError
from anglelib.lessons.controls import ChoiceControl, NumberControl, PressButton, by_id, in_turn
from anglelib.lessons.look_style import DO
from anglelib.lessons.words import listed, paragraph, said

if TYPE_CHECKING:
    from anglelib.workshop.class_plan import ClassWanted

FOLDER = "class-pack"


class ClassPackBox(widgets.VBox):
    """Controls of a class, and the button that makes its pack into a folder in the learner's own."""

    def __init__(self) -> None:
        self.controls: dict[str, NumberControl] = {
            "learners": NumberControl("Learners", 1, 40, 12),
            "saws": NumberControl("Saws", 1, 6, 1),
            "discs": NumberControl("Disc sanders", 1, 6, 1),
            "wheels": NumberControl("Finishing wheels", 1, 6, 1),
            "competent": NumberControl("Competent people", 1, 6, 1),
        }
        self.paper = ChoiceControl("Paper", by_id({"letter": "Letter", "a4": "A4"}), "letter")
        self.hours, self.seed, self.date, self.folder = (
            self._text(*of)
            for of in (("Hours", "8", "like 8 or 7.5"), ("Seed", "1", "any word"), ("Date", "", "2024-05-01; empty: today"), ("Folder", FOLDER, FOLDER))
        )
        self.make = PressButton(DO, description="Make the class pack", layout=widgets.Layout(width="auto"))
        self.words = widgets.HTML(said("", lines=2))
        self.trouble = ""
        self.make.on_press(self._make)
        entries = [*self.controls.values(), self.paper, self.hours, self.seed, self.date, self.folder]
        super().__init__([*entries, self.make, self.words], layout=widgets.Layout(margin="0 0 1rem 0", max_width="64rem"))

    @staticmethod
    def _text(label: str, value: str, placeholder: str) -> widgets.Text:
        return widgets.Text(
            value, description=label, placeholder=placeholder, continuous_update=False, style={"description_width": "10rem"},
            layout=widgets.Layout(width="25rem", max_width="100%"),
        )  # fmt: skip

    def wanted(self) -> ClassWanted:
        """The class as the controls have it; raises BenchError for what cannot be."""
        from anglelib.workshop.class_plan import ClassWanted

        numbers = {name: control.value for name, control in self.controls.items()}
        date = self.date.value.strip() or None
        return ClassWanted(hours=self.hours.value, paper=self.paper.value, seed=self.seed.value.strip() or "1", date=date, **numbers)  # type: ignore[arg-type]

    @in_turn
    def _make(self) -> None:
        """Makes and writes the pack; what is wrong is said, and then nothing is written."""
        self.trouble = ""
        self.make.disabled = True
        self.words.value = said("Making the class pack: it may take a minute.", lines=2)
        try:
            from anglelib.questions.answers import home
            from anglelib.storage import path_typed
            from anglelib.whole_sets import refuse_folder
            from anglelib.workshop.class_pack import make_class_pack, write_class_pack

            folder = home() / path_typed(self.folder.value.strip() or FOLDER)  # an absolute one stays as it is
            wanted = self.wanted()
            refuse_folder(folder)
            pack = make_class_pack(wanted, self._tell)
            written = write_class_pack(pack, folder, self._tell)
        except (BenchError, OSError) as error:
            self.trouble = str(error) if isinstance(error, BenchError) else f"The class pack cannot be written ({error.strerror}): choose another folder."
            self.words.value = said(self.trouble, "unreadable", lines=2)
            return
        finally:
            self.make.disabled = False
        self.words.value = said(pack.made, lines=1) + listed(f"{folder.name}/{path.name}" for path in written)

    def _tell(self, share: float, words: str) -> None:
        self.words.value = said(f"{round(100 * share)} %: {words}", lines=2)

    def _repr_mimebundle_(self, **kwargs: object) -> dict:
        words = "Controls here make the class pack, once the page has been run; or on the command line: python -m anglelib class --learners 12."
        return {**super()._repr_mimebundle_(**kwargs), "text/html": paragraph(words), "text/plain": words}
