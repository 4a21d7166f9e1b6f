# Was an einer Datei nicht stimmt, und was richtig wäre. Die Wörter der Datei bleiben englisch.

