;; The session that .ci/editor runs inside Emacs, with eglot set up as crates/editor/README.md says. Any failure leaves with an exit
;; code that is not 0.  -*- lexical-binding: t -*-

(require 'cl-lib)
(require 'eglot)

;; The lines of the README: what is taken from it by .ci/editor.
(load (expand-file-name "guide.el") nil t)

(defun messages ()
  "What is shown beside the story."
  (mapcar #'flymake-diagnostic-text (flymake-diagnostics)))

(defun shown (part)
  (cl-some (lambda (text) (string-search part text)) (messages)))

(defun wait (what holds)
  "Wait until HOLDS says so."
  (let ((end (+ (float-time) 30)))
    (while (not (funcall holds))
      (when (> (float-time) end)
        (error "waited in vain: %s\nnow there is:\n%s" what (string-join (messages) "\n")))
      (accept-process-output nil 0.05)
      (flymake-start))))

(defun act (word title)
  "Apply the code action of that TITLE for the first WORD, as its menu does."
  (goto-char (point-min))
  (search-forward word)
  (goto-char (match-beginning 0))
  (cl-letf (((symbol-function 'completing-read)
             (lambda (_prompt items &rest _)
               (or (car (cl-find-if (lambda (item) (string-search title (car item))) items))
                   (error "no action %s among: %S" title (mapcar #'car items)))))
            (last-nonmenu-event t))
    (call-interactively #'eglot-code-actions)))

(defun session ()
  (setq eglot-confirm-server-initiated-edits nil
        eglot-autoshutdown nil)
  (find-file "story.txt")
  (call-interactively #'eglot)
  (let ((server (eglot-current-server)))
    (wait "the diagnostics of the story" (lambda () (shown "“huge” is untaught at lesson 20")))
    (cl-assert (shown "“night” is untaught"))
    (cl-assert (shown "lesson 20: 60.0 % decodable"))

    ;; Settings hold as they are typed; YAML of other programs is left alone.
    (with-current-buffer (find-file-noselect "untaught.yaml")
      (cl-assert (eq major-mode 'untaught-scope-mode))
      (cl-assert (eglot-managed-p))
      (goto-char (point-min))
      (search-forward "lesson: 20")
      (replace-match "lesson: 1")
      (eglot--signal-textDocument/didChange))
    (wait "the unsaved lesson holds" (lambda () (shown "at lesson 1:")))
    (with-current-buffer "untaught.yaml"
      (undo-boundary)
      (goto-char (point-min))
      (search-forward "lesson: 1")
      (replace-match "lesson: 20")
      (eglot--signal-textDocument/didChange))
    (wait "the lesson of before holds" (lambda () (shown "“huge” is untaught at lesson 20")))
    (with-current-buffer (find-file-noselect "scope.yaml")
      (cl-assert (eglot-managed-p)))
    (with-current-buffer (find-file-noselect "compose.yaml")
      (cl-assert (not (eglot-managed-p))))

    ;; Edit: a word goes, others come, with letters of several bytes before them.
    (goto-char (point-min))
    (search-forward "night")
    (replace-match "😀 ten, Dee")
    (save-buffer)
    (wait "night is gone" (lambda () (not (shown "“night”"))))
    (wait "Dee is there" (lambda () (shown "“dee” is untaught")))

    ;; Code actions: another word, and a name declared in new front matter.
    (act "huge" "Replace “huge” with “big”")
    (save-buffer)
    (wait "huge is swapped" (lambda () (not (shown "“huge”"))))
    (act "Dee" "the name “Dee”")
    (save-buffer)
    (wait "Dee is told beforehand" (lambda () (not (shown "“dee”"))))

    ;; Close, and say goodbye: an answer to that is waited for, then eglot kills the process.
    (kill-buffer)
    (eglot-shutdown server nil 20)
    (cl-assert (not (jsonrpc-running-p server)))))

(session)
