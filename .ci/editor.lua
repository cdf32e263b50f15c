-- The session that .ci/editor runs inside Neovim, which was started with the lines of the guide as its settings. Any failure leaves
-- with an exit code that is not 0.

local hints = vim.lsp.inlay_hint ~= nil

local function messages(buffer)
  local found = {}
  for _, item in ipairs(vim.diagnostic.get(buffer or 0)) do
    table.insert(found, item.message)
  end
  return table.concat(found, '\n')
end

local function wait(what, holds)
  if not vim.wait(30000, holds, 20) then
    error('waited in vain: ' .. what .. '\nnow there is:\n' .. messages())
  end
end

local function shown(part, buffer)
  return function() return messages(buffer):find(part, 1, true) ~= nil end
end

local function gone(part)
  return function() return messages():find(part, 1, true) == nil end
end

local function clients()
  return (vim.lsp.get_clients or vim.lsp.get_active_clients)()
end

local function attached(buffer)
  local found = vim.lsp.get_clients and vim.lsp.get_clients({ bufnr = buffer }) or vim.lsp.buf_get_clients(buffer)
  return next(found) ~= nil
end

-- Applies the action of that title for the word at a place.
local function act(line, column, title)
  local place = { line = line, character = column }
  local params = {
    textDocument = vim.lsp.util.make_text_document_params(),
    range = { start = place, ['end'] = place },
    context = { diagnostics = {} },
  }
  local titles = {}
  for id, answer in pairs(vim.lsp.buf_request_sync(0, 'textDocument/codeAction', params, 20000) or {}) do
    for _, action in ipairs(answer.result or {}) do
      table.insert(titles, action.title)
      if action.title:find(title, 1, true) then
        return vim.lsp.util.apply_workspace_edit(action.edit, vim.lsp.get_client_by_id(id).offset_encoding)
      end
    end
  end
  error('no action ' .. title .. ' among: ' .. table.concat(titles, '; '))
end

-- Neovim counts columns in bytes, the protocol in what was agreed on with the server.
local function column_of(line, part)
  local bytes = line:find(part, 1, true) - 1
  if clients()[1].offset_encoding == 'utf-8' then return bytes end
  local points, units = vim.str_utfindex(line, bytes)
  return units or points
end

-- The summary, wherever it is shown.
local function summary()
  if not hints then return messages():match('lesson [^\n]* decodable[^\n]*') end
  local hint = vim.lsp.inlay_hint.get({ bufnr = 0 })[1]
  return hint and hint.inlay_hint.label
end

local function session()
  wait('the diagnostics of the story', shown('“huge” is untaught at lesson 20'))
  assert(shown('“night” is untaught')(), messages())
  wait('the summary', function() return summary() ~= nil end)
  assert(summary():find('lesson 20: 60', 1, true) == 1, summary())

  -- Edit: a word goes, another comes, with letters of several bytes before it.
  vim.api.nvim_buf_set_text(0, 1, 16, 1, 21, { '😀 e\u{301} ten, Dee' })
  wait('night is gone', gone('“night”'))
  wait('Dee is there', shown('“dee” is untaught'))

  -- Code actions: another word, and a name declared in new front matter.
  act(0, 11, 'Replace “huge” with “big”')
  wait('huge is swapped', gone('“huge”'))
  assert(vim.api.nvim_buf_get_lines(0, 0, 1, true)[1] == 'Tam had a big hat.')
  local line = vim.api.nvim_buf_get_lines(0, 1, 2, true)[1]
  act(1, column_of(line, 'Dee'), 'the name “Dee”')
  wait('Dee is told beforehand', gone('“dee”'))

  -- A change of the settings, saved by somebody else, holds after the next save.
  vim.fn.writefile({ 'format: 1', 'scope: starter', 'lesson: 1' }, 'untaught.yaml')
  vim.cmd('write')
  wait('the earlier lesson holds', shown('at lesson 1:'))
  wait('the summary has it too', function() return summary():find('lesson 1:', 1, true) == 1 end)

  local story = vim.api.nvim_get_current_buf()
  if hints then
    -- Settings that are open in another window hold as they are typed, and their faults are shown.
    vim.cmd('split untaught.yaml')
    assert(attached(0), 'the settings file belongs to it')
    assert(#clients() == 1, 'to the same server')
    vim.api.nvim_buf_set_lines(0, 2, 3, true, { 'lesson: 2' })
    wait('the unsaved lesson holds', shown('at lesson 2:', story))
    vim.api.nvim_buf_set_lines(0, 2, 3, true, { 'lessen: 2' })
    wait('a wrong key is told', shown('lessen'))
    vim.cmd('edit! scope.yaml')
    assert(attached(0), 'a scope file belongs to it')
  end
  -- YAML of other programs does not belong to it.
  vim.cmd('split compose.yaml')
  assert(vim.bo.filetype == 'yaml')
  assert(not attached(0), 'other YAML is left alone')

  -- Close, and say goodbye.
  local id = clients()[1].id
  vim.cmd('only! | enew! | bdelete! ' .. story)
  vim.lsp.stop_client(id)
  wait('the server ends', function() return vim.fn.filereadable('ended') == 1 end)
end

local fine, problem = pcall(session)
if not fine then
  io.stderr:write(tostring(problem) .. '\n')
  vim.cmd('cquit 1')
end
vim.cmd('qall!')
