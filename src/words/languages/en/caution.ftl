# The caution. It is general information in our own words, following the advice of the British Association for
# Performing Arts Medicine and of NASM–PAMA. It promises nothing and leaves every judgement to the player's
# teacher, a doctor, a dentist or an audiologist. A translation says all of it.

caution-short =
    Stop at once for pain, numbness, dizziness, or a cut or swollen lip: that
    ends today's playing. If it comes back, tell your teacher and see a doctor. If a note needs
    pressing, play lower. Start at low volume. General information only: your teacher, your doctor
    and your dentist know better.
caution-pain =
    Stop at once if anything hurts, goes numb, makes you dizzy, or if the lip is cut or swollen.
    Pain ends the playing for today. If it comes back, tell your teacher and see a doctor.
caution-pressing =
    If a note only comes when you press the mouthpiece to the lip, it is too high for now: play
    lower. Rest at least as long as you play, and take a longer pause every half hour.
caution-break =
    After an illness or a break, with new braces or after dental work, ask your teacher and your
    dentist first, and begin again one routine easier. Add playing time slowly.
caution-breathing = Sit down for breathing exercises, and breathe as usual again as soon as you feel light-headed.
caution-volume =
    Start the track at low volume. Turn it so that you always hear your own horn, never so loud
    that it drowns it, in headphones above all. If your ears ring, stop, and turn it down next
    time; if the ringing stays, see a doctor or an audiologist.
caution-general =
    This is general information. It is no diagnosis and no promise that anything is safe for you.
    What your teacher, your doctor, your dentist or your audiologist says comes first.
