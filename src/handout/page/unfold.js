// Not a part of the page's script: it draws all lines where that cannot be read or has failed, so it is in the language of 2009.
addEventListener("load", function () {
  if (document.body.className.indexOf("with-script") >= 0) return;
  var folded = document.querySelectorAll(".music > noscript");
  for (var i = 0; i < folded.length; i++) folded[i].parentNode.innerHTML += folded[i].textContent;
});
