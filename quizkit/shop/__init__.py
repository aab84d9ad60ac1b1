"""What people do, one function a deed, and the views that faces show."""

from quizkit.shop.appeals import AppealView, answer_appeal, appeal, open_appeals
from quizkit.shop.asking import OptionView, PartView, QuestionView, ToldPart, variant_of
from quizkit.shop.checks import ItemView, Written, answer_item, check_item, next_item, start_check
from quizkit.shop.doors import SignedIn, check_secret, draft, drop_draft, keep_draft, session, sign_in, sign_out
from quizkit.shop.gates import CheckGate
from quizkit.shop.handing import ListRow, ListView, check_list, close_overdue, hand_in
from quizkit.shop.handle import Shop, open_shop
from quizkit.shop.joining import (
    Erased,
    PeopleAdded,
    PersonAdded,
    RowProblem,
    add_people,
    add_person,
    change_own_secret,
    change_person,
    leave,
    rename_person,
    reset_secret,
)
from quizkit.shop.label import ShelfLabel
from quizkit.shop.modules import (
    Block,
    LessonLine,
    LessonView,
    ModuleView,
    NeedView,
    ProofNeed,
    TopicLine,
    lesson_image,
    lesson_read,
    lesson_view,
    module_view,
)
from quizkit.shop.packs import SiteView, current_pack, pack_of, settings, shop_name, sites
from quizkit.shop.people import PersonView, RosterRow, people, person_view, roster
from quizkit.shop.practice import Asked, Told, answer_practice, practice_view, practise
from quizkit.shop.press import Press
from quizkit.shop.publishing import Publication, publish
from quizkit.shop.refusal import Forbidden, Refusal, StoreTrouble, Unknown, Waiting
from quizkit.shop.results import Missed, ResultView, TopicResult, result
from quizkit.shop.standings import EndorsementView, StandingView
from quizkit.shop.strip import ShelfItem, shelf
from quizkit.shop.today import TodayLine, TodayView, today

__all__ = [
    "AppealView",
    "Asked",
    "Block",
    "CheckGate",
    "EndorsementView",
    "Erased",
    "Forbidden",
    "ItemView",
    "LessonLine",
    "LessonView",
    "ListRow",
    "ListView",
    "Missed",
    "ModuleView",
    "NeedView",
    "OptionView",
    "PartView",
    "PeopleAdded",
    "PersonAdded",
    "PersonView",
    "Press",
    "ProofNeed",
    "Publication",
    "QuestionView",
    "Refusal",
    "ResultView",
    "RosterRow",
    "RowProblem",
    "ShelfItem",
    "ShelfLabel",
    "Shop",
    "SignedIn",
    "SiteView",
    "StandingView",
    "StoreTrouble",
    "TodayLine",
    "TodayView",
    "Told",
    "ToldPart",
    "TopicLine",
    "TopicResult",
    "Unknown",
    "Waiting",
    "Written",
    "add_people",
    "add_person",
    "answer_appeal",
    "answer_item",
    "answer_practice",
    "appeal",
    "change_own_secret",
    "change_person",
    "check_item",
    "check_list",
    "check_secret",
    "close_overdue",
    "current_pack",
    "draft",
    "drop_draft",
    "hand_in",
    "keep_draft",
    "leave",
    "lesson_image",
    "lesson_read",
    "lesson_view",
    "module_view",
    "next_item",
    "open_appeals",
    "open_shop",
    "pack_of",
    "people",
    "person_view",
    "practice_view",
    "practise",
    "publish",
    "rename_person",
    "reset_secret",
    "result",
    "roster",
    "session",
    "settings",
    "shelf",
    "shop_name",
    "sign_in",
    "sign_out",
    "sites",
    "start_check",
    "today",
    "variant_of",
]
