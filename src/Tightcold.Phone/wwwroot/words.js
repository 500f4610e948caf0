// The few sentences that are said before the program runs, and so before its own catalogues are there. English where the
// browser wishes no language that there is. A plain script, since not every browser's service worker takes modules.
(() => {
const told = {
  de: {
    'Opening the journal on this phone': 'Das Journal auf diesem Telefon wird geöffnet',
    'This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.':
      'Dieser Browser kann hier kein Journal führen: Nötig sind eine Seite über https oder von diesem Gerät selbst und ein Browser ab 2023. Nichts wurde geändert.',
    'It did not open: {0}. Nothing that was written down is lost.': 'Es ging nicht auf: {0}. Nichts, was aufgeschrieben wurde, ist verloren.',
    'Try again': 'Noch einmal versuchen',
    'another tab holds the journal and does not answer; close it': 'ein anderer Tab hält das Journal und antwortet nicht; schließe ihn',
    'the program did not load': 'das Programm wurde nicht geladen',
    'Tightcold is not open: open it again from its icon.': 'Tightcold ist nicht geöffnet: öffne es wieder über sein Symbol.',
    'A new version is here. What is written down stays; what stands in a form and was not sent does not.':
      'Eine neue Version ist da. Was aufgeschrieben ist, bleibt; was in einem Formular steht und nicht abgeschickt wurde, nicht.',
    'Begin with it': 'Mit ihr beginnen',
    'Later': 'Später',
    'The browser cleared the journal that was here ({0}). Take in your last copy, or exchange with the laptop; what is written down now comes to it.':
      'Der Browser hat das Journal gelöscht, das hier war ({0}). Nimm deine letzte Kopie auf oder tausche mit dem Laptop aus; was jetzt aufgeschrieben wird, kommt dazu.',
    'Understood': 'Verstanden',
    'This is how it stood on {0}. It is being worked out anew.': 'So stand es am {0}. Es wird neu ausgerechnet.',
  },
  es: {
    'Opening the journal on this phone': 'Abriendo el diario en este teléfono',
    'This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.':
      'Este navegador no puede llevar aquí un diario: hace falta una página por https o de este mismo equipo, y un navegador de 2023 o posterior. No se ha cambiado nada.',
    'It did not open: {0}. Nothing that was written down is lost.': 'No se abrió: {0}. No se ha perdido nada de lo anotado.',
    'Try again': 'Intentar de nuevo',
    'another tab holds the journal and does not answer; close it': 'otra pestaña tiene el diario y no responde; ciérrala',
    'the program did not load': 'el programa no se cargó',
    'Tightcold is not open: open it again from its icon.': 'Tightcold no está abierto: ábrelo de nuevo desde su icono.',
    'A new version is here. What is written down stays; what stands in a form and was not sent does not.':
      'Hay una versión nueva. Lo anotado se queda; lo que está en un formulario sin enviar, no.',
    'Begin with it': 'Empezar con ella',
    'Later': 'Más tarde',
    'The browser cleared the journal that was here ({0}). Take in your last copy, or exchange with the laptop; what is written down now comes to it.':
      'El navegador borró el diario que había aquí ({0}). Incorpora tu última copia o intercambia con el portátil; lo que se anote ahora se suma.',
    'Understood': 'Entendido',
    'This is how it stood on {0}. It is being worked out anew.': 'Así estaba el {0}. Se está calculando de nuevo.',
  },
  fr: {
    'Opening the journal on this phone': 'Ouverture du journal sur ce téléphone',
    'This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.':
      'Ce navigateur ne peut pas tenir de journal ici : il faut une page en https ou de cet appareil même, et un navigateur de 2023 ou plus récent. Rien n’a été modifié.',
    'It did not open: {0}. Nothing that was written down is lost.': 'L’ouverture a échoué : {0}. Rien de ce qui a été noté n’est perdu.',
    'Try again': 'Réessayer',
    'another tab holds the journal and does not answer; close it': 'un autre onglet tient le journal et ne répond pas ; fermez-le',
    'the program did not load': 'le programme ne s’est pas chargé',
    'Tightcold is not open: open it again from its icon.': 'Tightcold n’est pas ouvert : rouvrez-le par son icône.',
    'A new version is here. What is written down stays; what stands in a form and was not sent does not.':
      'Une nouvelle version est là. Ce qui est noté reste ; ce qui est dans un formulaire non envoyé, non.',
    'Begin with it': 'Commencer avec elle',
    'Later': 'Plus tard',
    'The browser cleared the journal that was here ({0}). Take in your last copy, or exchange with the laptop; what is written down now comes to it.':
      'Le navigateur a effacé le journal qui était ici ({0}). Reprenez votre dernière copie ou échangez avec l’ordinateur portable ; ce qui est noté maintenant s’y ajoute.',
    'Understood': 'Compris',
    'This is how it stood on {0}. It is being worked out anew.': 'Voici l’état au {0}. Il est recalculé.',
  },
  pl: {
    'Opening the journal on this phone': 'Otwieranie dziennika na tym telefonie',
    'This browser cannot keep a journal here: it needs a page over https or from this very machine, and a browser of 2023 or later. Nothing was changed.':
      'Ta przeglądarka nie może tu prowadzić dziennika: potrzebna jest strona przez https albo z tego urządzenia i przeglądarka z 2023 roku lub nowsza. Niczego nie zmieniono.',
    'It did not open: {0}. Nothing that was written down is lost.': 'Nie udało się otworzyć: {0}. Nic z tego, co zapisano, nie przepadło.',
    'Try again': 'Spróbuj ponownie',
    'another tab holds the journal and does not answer; close it': 'inna karta trzyma dziennik i nie odpowiada; zamknij ją',
    'the program did not load': 'program się nie wczytał',
    'Tightcold is not open: open it again from its icon.': 'Tightcold nie jest otwarty: otwórz go ponownie ikoną.',
    'A new version is here. What is written down stays; what stands in a form and was not sent does not.':
      'Jest nowa wersja. To, co zapisano, zostaje; to, co stoi w niewysłanym formularzu, nie.',
    'Begin with it': 'Zacznij z nią',
    'Later': 'Później',
    'The browser cleared the journal that was here ({0}). Take in your last copy, or exchange with the laptop; what is written down now comes to it.':
      'Przeglądarka skasowała dziennik, który tu był ({0}). Wczytaj ostatnią kopię albo wymień dane z laptopem; to, co teraz zapiszesz, dojdzie do niego.',
    'Understood': 'Rozumiem',
    'This is how it stood on {0}. It is being worked out anew.': 'Taki był stan: {0}. Trwa ponowne obliczanie.',
  },
};

const wished = self.navigator.languages ?? [self.navigator.language ?? 'en'];

// The first language wished that there is, as HTML names it.
const language = wished.map(name => name.toLowerCase().split('-')[0]).find(name => name === 'en' || name in told) ?? 'en';

// A sentence in that language, with what belongs in its place.
const words = (english, place = '') => (told[language]?.[english] ?? english).replace('{0}', () => place);
self.tightcold = { ...self.tightcold, language, words };
})();
